"""The job file: everything one customer's session holds, to open again later.

JSON with its cautions inside, a copy of every base design it stands on, and a sum over the whole
that tells a damaged file. Body measures are in it, so its name never carries any.
"""

import json
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, ValidationError

from sizer import __version__
from sizer.book.exchange import not_of_form, sealed, sum_of
from sizer.book.records import LONGEST_MARK
from sizer.design.library import shipped_names
from sizer.design.read import read_design
from sizer.design.write import design_toml
from sizer.errors import BadInput, Fault
from sizer.fit.cautions import standing_cautions
from sizer.web.bench_entered import DryFitEntered, LaunchEntered
from sizer.web.draft import BESIDE, LONGEST_NOTES, MOST_VARIANTS, Variant
from sizer.web.entered import Entered
from sizer.web.figures import LONGEST, Part
from sizer.web.own_table import OwnTable
from sizer.web.session import OWN, shipped_lines

FORMAT = 6
SINCE_FORMAT_2 = {"wished", "follow", "shop_bias", "water_unread"}  # the last two since 4 and 6
FORMATS = (1, 2, 3, 4, 5, FORMAT)
MOST_BYTES = 5_000_000


def _whole(wishes):
    """Wishes as a file has them; only what is new since format 1 may be left out."""
    if isinstance(wishes, dict):
        missing = Entered.model_fields.keys() - SINCE_FORMAT_2 - wishes.keys()
        if missing:
            raise ValueError(f"missing: {', '.join(sorted(missing))}")
    return wishes


class _Job(Part):
    sizer_job: Literal[FORMATS]
    program: Annotated[str, Field(max_length=LONGEST)]
    cautions: list[str]
    wishes: Annotated[Entered, BeforeValidator(_whole)]
    variants: Annotated[tuple[Variant, ...], Field(max_length=MOST_VARIANTS)]
    notes: Annotated[str, Field(max_length=LONGEST_NOTES)]
    mark: Annotated[str, Field(max_length=LONGEST_MARK)] = ""  # since format 3
    dry_fit: DryFitEntered = DryFitEntered()  # since format 4, as the next
    launch: LaunchEntered = LaunchEntered()
    own_table: OwnTable | None = None  # since format 5
    base_designs: dict[str, str]


class OpenedJob(_Job):
    """What a job file held, and what to tell the person about it."""

    remarks: tuple[str, ...]

    def beside(self):
        """{field of a Draft: what stands beside the boat's wishes}."""
        return {name: self[name] for name in BESIDE}


def job_text(one):
    used = {one.base, *(variant.wishes.base for variant in one.variants)}
    return sealed({
        "sizer_job": FORMAT, "program": __version__, "cautions": list(standing_cautions()),
        "wishes": one.wishes().model_dump(mode="json"),
        **one.model_dump(mode="json", include=set(BESIDE)),
        "base_designs": {base: design_toml(shipped_lines(base).design)
                         for base in sorted(used - {OWN})}})


def job_name(one, day, code=""):
    """A file name without a word about the customer: the job's code, base design and date."""
    return f"{code and f'{code}-'}job-{'own-design' if one.base == OWN else one.base}-{day}.json"


def opened_job(raw):
    """The OpenedJob of a job file's bytes; raises BadInput, where the file is damaged, is no job
    file, or comes from a newer program."""
    content = _content(raw)
    given = content.get("sizer_job")
    if isinstance(given, int) and given > FORMAT:
        raise _refusal(f"format {given}", "this file was saved by a newer version of the program "
                       f"({content.get('program', 'unknown')!s:.20}); this one is {__version__} "
                       f"and reads format {FORMAT}. Update the program, then open it again")
    if given not in FORMATS:
        raise _refusal("not a job file", "a file saved with 'Save this job'")
    if content.pop("sum", None) != sum_of(content):
        raise _refusal("damaged", "the file was changed or cut short since it was saved; open an "
                       "older copy")
    try:
        job = _Job.model_validate(content)
    except ValidationError as error:
        raise not_of_form("job file", error) from error
    wishes, *others = (_on_own_copy(part, job.base_designs)
                       for part in (job.wishes, *(kept.wishes for kept in job.variants)))
    variants = tuple(kept.but(wishes=part)
                     for kept, (part, _) in zip(job.variants, others, strict=True))
    remarks = {said for _, said in (wishes, *others) if said}
    return OpenedJob(**dict(job) | {"wishes": wishes[0], "variants": variants},
                     remarks=tuple(sorted(remarks)))


def _content(raw):
    if len(raw) > MOST_BYTES:
        raise _refusal(f"{len(raw) / 1e6:.0f} MB", f"at most {MOST_BYTES / 1e6:.0f} MB")
    try:
        content = json.loads(raw)
    except (ValueError, RecursionError) as error:
        raise _refusal("damaged or no job file", "a file saved with 'Save this job'") from error
    if not isinstance(content, dict):
        raise _refusal("not a job file", "a file saved with 'Save this job'")
    return content


def _on_own_copy(wishes, designs):
    """(Entered on a design that is there, what to tell): where the shipped base is no longer the
    one that the job was saved with, on the saved copy."""
    if wishes.base == OWN or wishes.own_design is not None:
        read_design(wishes.own_design or "", wishes.own_name or "own design")
    if wishes.base == OWN:
        return wishes, None
    saved = designs.get(wishes.base)
    if saved is None:
        raise _refusal(f"base {wishes.base!r:.60}", "the file does not hold this base design")
    if wishes.base in shipped_names() and saved == design_toml(shipped_lines(wishes.base).design):
        return wishes, None
    read_design(saved, wishes.base)
    name = f"{wishes.base} as saved"[:LONGEST]
    return wishes.but(own_design=saved, own_name=name, base=OWN), (
        f"The base design {wishes.base} has changed since this job was saved. The job keeps "
        "the copy it was saved with, as your own design.")


def _refusal(value, allowed):
    return BadInput([Fault("job file", value, f"{allowed}. Nothing was changed")])
