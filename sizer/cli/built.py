"""The commands `dry-fit` and `launch`: the boat as it stands, and what its launch teaches."""

from sizer.built.dry_fit import dry_fit, faults_in
from sizer.built.launch_odds import gm_odds, odds_after
from sizer.built.learnt import lesson, still_deg
from sizer.built.steadiness import steadiness
from sizer.built.table import DATUMS, readable
from sizer.built.trial import read_trial
from sizer.built.trial_weights import trial_weights
from sizer.cli.answered import put_answer
from sizer.cli.fit import FORCE
from sizer.cli.folder import out_folder, write_folder
from sizer.cli.inputs import REQUEST, json_of, small_bytes
from sizer.cli.options import STAMP, Command, Option, number, one_of, stamp_of
from sizer.design.read import utf8_text
from sizer.errors import BadInput
from sizer.export.built_answer import dry_fit_answer, dry_fit_files
from sizer.export.launch_answer import launch_answer
from sizer.units import MM_PER_M

USUAL = "a table of some dozens of rows"


def dry_fit_(given):
    """Prints the boat as it stands; returns 1 where a check of it fails."""
    measured, faults = readable(given.measured, given.unit, given.heights_from)
    job = given.request.job().stamped(stamp_of(given))
    faults += faults_in(job, measured)
    if faults:
        raise BadInput(faults)
    found = dry_fit(job, measured, given.plus_minus_mm / MM_PER_M, given.unit)
    if given.out is not None:
        write_folder(dry_fit_files(job, found), given.out)
    put_answer(dry_fit_answer(job, found))
    return 1 if found.built.status == "fail" else 0


def launch(given):
    """Prints what a launch teaches; returns 1 where a check of the job fails."""
    trial = read_trial(given.trial)
    job = given.request.job().stamped(stamp_of(given))
    put_answer(taught(job, trial))
    return 1 if job.fitted.status == "fail" else 0


def taught(job, trial):
    """The answer to a launch; raises as `sizer.built.learnt.lesson`."""
    found = lesson(job.fitted.assessed, trial)
    turns_over = (float(job.mishaps.rigid.gz_m.max())
                  * job.fitted.assessed.loading.load.mass_kg)
    gm = found.of("gm_m")
    weights = trial_weights(job.fitted.assessed, gm.after, gm.after_plus_minus, still_deg(trial))
    hard_odds = job.fitted.odds_all_hard, odds_after(job.fitted, found)
    judged = steadiness(job.fitted, job.fitted.assessed, trial)
    return launch_answer(job, found, judged, turns_over, gm_odds(job.fitted, found), hard_odds,
                         weights)


def _json(path, place, _given):
    return json_of(small_bytes(path, place, USUAL), place)


def _text(path, place, _given):
    return utf8_text(small_bytes(path, place, USUAL), place)


def _out(text, place, given):
    return None if text is None else out_folder(text, place, given)


COMMANDS = (
    Command("dry-fit", dry_fit_, "tell where a dry-fitted boat differs from its design, and float "
            "it as it stands",
            "%(prog)s request.json measured.csv --plus-minus-mm 2, where measured.csv begins "
            "side,frame,stringer,half_breadth_mm,height_mm and has rows such as "
            "port,F4,gunwale,251, or both,F6,keel,,118", (
                REQUEST,
                Option("measured", "a CSV table of what was measured, any few rows", _text,
                       {"metavar": "MEASURED.csv"}),
                Option("--plus-minus-mm", "one standard deviation of a reading (default: 2)",
                       number(0.2, 20.0, "mm"), {"default": "2"}),
                Option("--heights-from", "strongback (its top, as on the setting-up sheet) or "
                       "baseline (default: strongback)",
                       one_of(tuple(DATUMS), "strongback or baseline"), {"default": "strongback"}),
                Option("--unit", "of a bare number and of marks in sentences: mm, cm or in "
                       "(default: mm)", one_of(("mm", "cm", "in"), "mm, cm or in"),
                       {"default": "mm"}),
                *STAMP,
                Option("--out", "a folder for the boat as it stands as a design file, the notches "
                       "to file or pack, and revised patterns", _out), FORCE)),
    Command("launch", launch, "tell what a launch teaches: weights, centres and steadiness as they "
            "must have been",
            "%(prog)s request.json trial.json, where trial.json holds "
            '{"boat_kg": 17.5, "load_kg": 92, "water": {"kind": "fresh", "temperature_c": 18}, '
            '"afloat": [{"bow_mm": 310, "stern_mm": 270, "side_mm": 160}], "heel": [{"kg": 1, '
            '"off_centre_mm": 250, "height_mm": 300, "heel_deg": 3.1}]}; distances and heel are '
            "positive to starboard, heights over the baseline. A reading out of all likelihood is "
            "left out until it is read again, or, where it is so, its name from left_out stands in "
            'a list "confirmed". Near shore, in company, warm calm '
            "water, PFD fastened", (
                REQUEST,
                Option("trial", "a JSON file of what was measured", _json,
                       {"metavar": "TRIAL.json"}), *STAMP)),
)
