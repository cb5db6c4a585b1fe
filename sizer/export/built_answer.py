"""A dry fit as plain JSON values, and as the files that go back to the bench."""

import json
from dataclasses import asdict, dataclass, replace

from sizer.built.dry_fit import dry_fit
from sizer.built.notches import in_order
from sizer.built.table import measured_text, read_measured
from sizer.design.write import design_toml
from sizer.export.answer import check_answer, imprint_answer, particulars_answer
from sizer.export.job_csv import commented, lead_of
from sizer.export.numbers import json_text, mm, named, number
from sizer.shop.foot_rails import bored
from sizer.shop.frame_drawing import frame_drawing
from sizer.shop.frames import frame_patterns
from sizer.shop.plywood import with_true_plywood
from sizer.spreadsheet import csv_text
from sizer.units import MM_PER_M

NOTCHES = "notches.csv"
MEASURES = ("table", "plus_minus_mm")  # of `measured_record`: what it rests on
NOTCH_HEADS = ("frame", "side", "stringer", "half_breadth_off_mm", "height_off_mm", "first",
               "what to do", "remark")


@dataclass(frozen=True)
class Sheets:
    """Which sheets stand beside those of a revision that re-issues frames."""

    whole: str  # letter of the revision that the whole boat was issued as
    part: str = ""  # that re-issued frames of it before, and holds no longer
    back: tuple[str, ...] = ()  # frames of `part` that go back to the sheets of `whole`

    @property
    def replaced(self):
        """What the new revision replaces, in a stamp's words."""
        return ", and ".join(filter(None, (self.part, f"{self.whole} in part")))

    @property
    def words(self):
        taken = (f"Revision {self.part} holds no longer: take its sheets off the bench. "
                 if self.part else "")
        back = (f"{', '.join(self.back)}: as in revision {self.whole} again. "
                if self.back else "")
        return f"{taken}{back}All other sheets of revision {self.whole} stand."


def dry_fit_answer(job, found, sheets=None):
    """The contract's answer to a dry fit; cautions lead it."""
    return {
        "cautions": list(found.cautions),
        "job": imprint_answer(_imprint(job, found, sheets)),
        "says": [*(one.say for one in found.standing.odd), *found.twice, *found.hull],
        "as_built": floated_answer(found.built) | {"list_deg": number(found.list_deg)},
        "designed": floated_answer(found.designed),
        "frames": [{**named(one, "frame", "side", "stringer", "off_half_breadth_m", "off_height_m"),
                    "half_breadth_plus_minus_mm": mm(one.spread_half_breadth_m),
                    "height_plus_minus_mm": mm(one.spread_height_m),
                    **named(one, "beyond", "unfair", "first", "say", "remark")}
                   for one in found.points],
        "odd": [{**named(one, "kind", "frame", "way", "measures", "off_m"),
                 "off_plus_minus_mm": mm(one.spread_m), "say": one.say}
                for one in found.standing.odd],
        "recut": list(found.recut),
        "plus_minus_mm": mm(found.standing.tape_m),
        "sides": "displacement, GM and checks are of the mean of both half-sections; the list is "
                 "of the hull with both its sides",
    }


def floated_answer(one):
    return {"status": one.status,
            "flotation": particulars_answer(one.assessed.particulars, one.assessed.person.water),
            "checks": [check_answer(check) for check in one.checks]}


def dry_fit_files(job, found, sheets=None):
    """{file name: bytes}: the boat as it stands, notches to file or pack, patterns to recut, beside
    the Sheets that stand, where they are of a revision."""
    # the writers of drawings load only where they are wanted
    from sizer.drawing.dxf import dxf_bytes
    from sizer.drawing.file_svg import svg_text
    from sizer.export.package import ANSWER
    from sizer.export.tiled_pdf import tiled_pdf
    from sizer.export.tiles import PAPERS_MM

    imprint = _imprint(job, found, sheets)
    head = commented([*lead_of(imprint), "The mean of starboard and port: a design file knows one "
                      "half-section."])
    files = {"as-built.toml": (head + design_toml(found.sides.mean.design)).encode(),
             NOTCHES: notches_csv(job, found, sheets)}
    recut = [(index, frame_drawing(pattern)) for index, pattern in enumerate(
        patterns_as_built(job, found), start=1) if pattern.name in found.recut]
    if recut:
        drawings = [drawing for _, drawing in recut]
        files |= {f"recut-patterns-{paper}.pdf": tiled_pdf(imprint.boat, drawings, imprint, paper)
                  for paper in PAPERS_MM}
    for index, drawing in recut:
        stem = f"frames/recut-{index}"
        files[f"{stem}.dxf"] = dxf_bytes(drawing, imprint)
        files[f"{stem}.svg"] = svg_text(drawing, imprint).encode()
    files[ANSWER] = json_text(dry_fit_answer(job, found, sheets)).encode()
    return {imprint.stamp.named(name): data for name, data in files.items()}


def patterns_as_built(job, found):
    """Every frame's FramePattern of the boat as it stands, in the plywood of the Job's Shop."""
    assessed, boat = found.built.assessed, with_true_plywood(found.sides.mean, job.shop)
    return bored(frame_patterns(boat, assessed.particulars, assessed.person.water),
                 job.patterns.foot_rails)


def measured_record(measured, tape_m, unit, sheets):
    """JSON text of what a dry fit rests on, for a revision that re-issues frames for it.

    `unit` is that of its sentences, and Sheets those that stand beside it.
    """
    return json.dumps({"table": measured_text(measured), "plus_minus_mm": tape_m * MM_PER_M,
                       "unit": unit, "sheets": asdict(sheets)})


def same_measures(record, other):
    """Whether two of `measured_record` rest on the same measures, by as good a tape."""
    one, two = (json.loads(text) for text in (record, other))
    return all(one[key] == two[key] for key in MEASURES)


def sheets_of(record):
    """The Sheets that stand beside a `measured_record`; None of one from before it told them."""
    kept = json.loads(record).get("sheets")
    return None if kept is None else Sheets(**kept | {"back": tuple(kept["back"])})


def measured_files(job, record):
    """`dry_fit_files` of a job and of what `measured_record` says; errors as `dry_fit`."""
    kept = json.loads(record)
    measured = read_measured(kept["table"], heights_from="baseline")
    return dry_fit_files(job, dry_fit(job, measured, kept["plus_minus_mm"] / MM_PER_M,
                                      kept["unit"]), sheets_of(record))


def notches_csv(job, found, sheets=None):
    """Which notches to file or pack, and by how much, what matters most first; bytes."""
    rows = [(one.frame, one.side, one.stringer, mm(one.off_half_breadth_m), mm(one.off_height_m),
             one.first, one.say, one.remark)
            for one in in_order(found.points) if one.beyond or one.unfair]
    return csv_text(lead_of(_imprint(job, found, sheets)), NOTCH_HEADS, rows).encode()


def _imprint(job, found, sheets):
    stamp = job.stamp
    if sheets is None and stamp.replaces:
        sheets = Sheets(stamp.replaces)
    stand = "All other sheets stand." if sheets is None else sheets.words
    only = (f"Of the frames only these are drawn anew: {', '.join(found.recut) or 'none'}. "
            f"{stand}")
    if sheets is not None:
        stamp = replace(stamp, replaces=sheets.replaced)
    return replace(job.imprint, stamp=stamp, boat=f"{job.imprint.boat}, as it stands",
                   refusal=found.refusal, cautions=(only, *found.cautions))
