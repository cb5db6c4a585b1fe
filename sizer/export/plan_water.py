"""The sheet of the float bags: where they lie, how large they are, where they are tied."""

from sizer.export.pages import Sheet, room_mm, words
from sizer.export.pdf_canvas import BOLD
from sizer.export.plan_shape import scaled_picture
from sizer.scenes.bag_views import bags_from_above, panels, tied_at
from sizer.shop.work_figures import both


def bags_sheet(job, bench, page_mm, foot):
    """Where both bags lie and where they are tied."""
    boat, up = job.fitted.assessed.boat, job.setting_up
    title = f"Float bags: {boat.design.name}"
    width, height = room_mm(title, foot, page_mm, job.imprint)
    one_to, plan = scaled_picture(
        lambda letters: bags_from_above(boat, bench, up.strongback_start_x_m, letters),
        (width - 1.0, 0.5 * height))
    across, held = scaled_picture(
        lambda letters: panels(bench, up.baseline_height_m, letters), (width - 1.0, 0.34 * height))
    return Sheet(title, (
        plan, words(f"From above, 1 : {one_to}, bow on the left. Below: each panel on its frame, "
                    f"seen from astern, 1 : {across}, tied to the sticks at the letters.", 8.5),
        held, *_told(job, bench)), page_mm, foot)


def _told(job, bench):
    lost = job.mishaps.swamped.says[0]
    yield words(lost, 9.0, BOLD)
    yield words("Push each bag in empty through the frames' openings, its nose to the last frame "
                "before the stem, and tie it there; blow it up; close it in with a panel of the "
                "skin's cloth, hemmed, with an eyelet every 100 mm, laced with cord to the sticks "
                "at the letters and along its edge. Cloth and no net: feet are near it, and none "
                "may go through. Tie beside the lashings, never to one, nor to the skin. Common "
                "practice, no source; the panel our judgement, places and cord worked out here.",
                9.0)
    for one in bench.bag_ties:
        points = "; ".join(f"{letter} {both(y)} out, {both(z)} up" for letter, y, z in tied_at(one))
        bays = ", ".join(f"{name} {litres:.0f}" for name, litres in one.bays_l)
        yield words(f"{one.end.capitalize()} bag: {one.litres:.0f} litres or more. Nose line at "
                    f"{one.nose}, panel at {one.panel}, of cloth {both(one.cloth_m[0])} x "
                    f"{both(one.cloth_m[1])} with {one.cord_m:.1f} m of 4 mm cord. Room, "
                    f"litres: {bays}. Panel tied, over the strongback: {points}.", 9.0)
