"""The job file: everything one customer's session holds, to open again later.

JSON with its cautions inside, a copy of every base design it stands on, and a sum over the whole
that tells a damaged file. Body measures are in it, so its name never carries any.
"""

import hashlib
import json
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from sizer import __version__
from sizer.design.library import shipped_names
from sizer.design.read import read_design
from sizer.design.write import design_toml
from sizer.errors import BadInput, Fault
from sizer.fit.cautions import standing_cautions
from sizer.fit.request import FIXED, WISHES
from sizer.fit.uses import USES
from sizer.web.draft import FIELDS, LENGTH_UNITS, MASS_UNITS, MOST_VARIANTS, Variant
from sizer.web.session import OWN, shipped_lines

FORMAT = 2  # 1 had neither wishes nor following
FORMATS = (1, FORMAT)
MOST_BYTES = 5_000_000
_SHORT = Annotated[str, Field(max_length=200)]
_DESIGN = Annotated[str, Field(max_length=1_000_000)]
_AMOUNT = Annotated[float, Field(allow_inf_nan=False, ge=-1e5, le=1e5)]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid")


class _Entry(_Part):
    text: _SHORT
    value: _AMOUNT | None
    fault: Annotated[str, Field(max_length=400)]


class _Wishes(_Part):
    entries: Annotated[dict[Literal[FIELDS], _Entry], Field(min_length=len(FIELDS))]
    hip_measured: Literal["sitting", "standing"]
    length_unit: Literal[LENGTH_UNITS]
    mass_unit: Literal[MASS_UNITS]
    use: Literal[tuple(USES)]
    base: _SHORT
    water_kind: Literal["fresh", "salt"]
    water_c: Annotated[float, Field(ge=0, le=30)]
    bags_l: tuple[_AMOUNT, _AMOUNT] | None
    speed_mps: Annotated[float, Field(ge=0.3, le=5)]
    held: dict[Literal[tuple(FIXED)], _AMOUNT]
    follow: bool = False
    wished: dict[Literal[tuple(WISHES)], Annotated[float, Field(ge=-1, le=1)]] = {}
    own_design: _DESIGN | None
    own_name: _SHORT
    sample: bool


class _Variant(_Part):
    name: _SHORT
    wishes: _Wishes


class _Job(_Part):
    sizer_job: Literal[FORMATS]
    program: _SHORT
    cautions: list[str]
    wishes: _Wishes
    variants: Annotated[list[_Variant], Field(max_length=MOST_VARIANTS)]
    notes: Annotated[str, Field(max_length=20_000)]
    base_designs: dict[str, _DESIGN]


@dataclass(frozen=True)
class OpenedJob:
    """What a job file held, and what to tell the person about it."""

    wishes: dict
    variants: list[Variant]
    notes: str
    remarks: tuple[str, ...]


def job_text(one):
    """The text of the job file of a Draft."""
    wishes = one.wishes()
    used = {part["base"] for part in (wishes, *(kept.wishes for kept in one.variants))}
    content = {
        "sizer_job": FORMAT, "program": __version__, "cautions": list(standing_cautions()),
        "wishes": wishes,
        "variants": [{"name": kept.name, "wishes": kept.wishes} for kept in one.variants],
        "notes": one.notes,
        "base_designs": {base: design_toml(shipped_lines(base).design)
                         for base in sorted(used - {OWN})}}
    return json.dumps(content | {"sum": _sum(content)}, ensure_ascii=False, indent=1) + "\n"


def job_name(one, day):
    """A file name without a word about the customer: base design and date."""
    return f"job-{'own-design' if one.base == OWN else one.base}-{day}.json"


def opened_job(raw):
    """The OpenedJob of a job file's bytes.

    Raises
    ------
    BadInput, where the file is damaged, is no job file, or comes from a newer program.
    """
    content = _content(raw)
    given = content.get("sizer_job")
    if isinstance(given, int) and given > FORMAT:
        raise _refusal(f"format {given}", "this file was saved by a newer version of the program "
                       f"({content.get('program', 'unknown')!s:.20}); this one is {__version__} "
                       f"and reads format {FORMAT}. Update the program, then open it again")
    if given not in FORMATS:
        raise _refusal("not a job file", "a file saved with 'Save this job'")
    if content.pop("sum", None) != _sum(content):
        raise _refusal("damaged", "the file was changed or cut short since it was saved; open an "
                       "older copy")
    try:
        job = _Job.model_validate(content)
    except ValidationError as error:
        raise BadInput([Fault("job file " + ".".join(str(at) for at in fault["loc"]),
                              f"{fault['input']!r:.60}", fault["msg"])
                        for fault in error.errors()]) from error
    parts = [job.wishes, *(kept.wishes for kept in job.variants)]
    remarks = {remark for part in parts for remark in _stand_on_own_copy(part, job.base_designs)}
    return OpenedJob(job.wishes.model_dump(),
                     [Variant(kept.name, kept.wishes.model_dump()) for kept in job.variants],
                     job.notes, tuple(sorted(remarks)))


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


def _stand_on_own_copy(wishes, designs):
    """Checks the design that wishes stand on; where the shipped base is no longer the one that
    the job was saved with, they keep the saved copy. Yields what to tell."""
    if wishes.base == OWN or wishes.own_design is not None:
        read_design(wishes.own_design or "", wishes.own_name or "own design")
    if wishes.base == OWN:
        return
    saved = designs.get(wishes.base)
    if saved is None:
        raise _refusal(f"base {wishes.base!r:.60}", "the file does not hold this base design")
    if wishes.base in shipped_names() and saved == design_toml(shipped_lines(wishes.base).design):
        return
    read_design(saved, wishes.base)
    yield (f"The base design {wishes.base} has changed since this job was saved. The job keeps "
           "the copy it was saved with, as your own design.")
    wishes.own_design, wishes.own_name, wishes.base = saved, f"{wishes.base} as saved", OWN


def _sum(content):
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _refusal(value, allowed):
    return BadInput([Fault("job file", value, f"{allowed}. Nothing was changed")])
