"""A range of sizes, and who fits one boat, as plain JSON values; cautions in both."""

from collections import Counter

from sizer.border import inside
from sizer.crowd.finished import request_for, title_of, titles_of
from sizer.crowd.pool import GOALS
from sizer.crowd.region import extremes
from sizer.crowd.sizes import METHOD, MISHAP_NOTE
from sizer.export.answer import boat_size_answer, imprint_answer
from sizer.export.numbers import mm, named, number
from sizer.fit.cautions import cautions_for
from sizer.stamp import Imprint, base_name, boat_words, no_job
from sizer.units import MM_PER_M

FIT_FIRST = "your own body may differ: fit yourself before you build."
BODY_NOTE = ("Hips, or stature, that a row does not fix are what the body survey expects; "
             f"{FIT_FIRST}")
LIKE_NOTE = ("All are built like the paddler at hand: what a row does not fix, hips or stature and "
             "whatever else was measured, is as far over or under what the body survey expects as "
             f"theirs is; {FIT_FIRST}")


def body_note(region):
    """What is said of the bodies of a Region."""
    return BODY_NOTE if region.like is None else LIKE_NOTE


GOAL_WORDS = {"served": "served", "clean": "without caution", "roomy": "room to spare"}


def range_imprint(found, choice, stamp=None):
    """The Imprint of the files of a SizeRange with one of its choices.

    `stamp` None is that of no job, of today.
    """
    trip, count = found.setting.trip, len(choice.sizes)
    name = base_name(trip.base, found.setting.lines.design)
    return Imprint(stamp or no_job(), f"{name}, {count} size{'s' * (count > 1)}", "",
                   cautions_for(trip.water))


def range_answer(found, choice, rows, bad, notes=(), stamp=None):
    """A SizeRange with one of its choices written out: the PersonRow of each person in its order,
    the BadRows, sentences about the list; `stamp` as in `range_imprint`."""
    setting, count = found.setting, len(found.measured)
    return {
        "job": imprint_answer(range_imprint(found, choice, stamp)),
        "base": setting.trip.base, "design": setting.lines.design.name, "use": setting.trip.use,
        "gear_kg": number(setting.trip.gear_kg), "water": water_answer(setting.trip.water),
        "people": {"read": count + len(bad), "counted": count, "bad": len(bad)},
        "bad_rows": [{"row": row.number, "label": row.label, "reasons": list(row.reasons)}
                     for row in bad],
        "notes": list(notes),
        "method": METHOD, "righting_note": MISHAP_NOTE, "boats_tried": found.pool,
        "boats_refused": found.pool_refused, "boats_unknown": found.pool_unknown,
        "curve": [curve_answer(one, count) for one in found.choices],
        "sizes": [size_answer(found, choice, index) for index in range(len(choice.sizes))],
        "served_share": number(choice.served / count),
        "without_caution_share": number(choice.clean / count),
        "left_out_share": number(1.0 - choice.served / count),
        "unknown_people": choice.unknown,
        "left_out_by_check": {title_of(key): people for key, people in ended_by(choice).items()},
        "left_out_by_key": ended_by(choice),
        "left_out": [{"row": rows[person].number, "label": rows[person].label,
                      "nearest_size": choice.sizes[choice.nearest[person]].name,
                      "fails": titles_of(choice.verdicts[person].fails),
                      "fails_keys": list(choice.verdicts[person].fails)}
                     for person in range(count) if choice.taken[person] < 0],
        "between_sizes": int(choice.between.sum()),
        "cautions": list(cautions_for(setting.trip.water)),
    }


def curve_answer(choice, count):
    """What so many sizes do for `count` people; bounds hold for the boats that were tried."""
    reached = choice.on_tables
    return {
        "sizes": len(choice.sizes),
        **{f"{name}_share": number(people / count) for name, people in (
            ("served", choice.served), ("without_caution", choice.clean),
            ("room_to_spare", choice.roomy))},
        "bounds": [{"goal": name, "reached_by_tables": people, "at_most": bound,
                    "gap_people": max(bound - people, 0), "greedy": alone}
                   for name, people, bound, alone in zip(
                       (GOAL_WORDS[one] for one in GOALS), reached, choice.bounds,
                       choice.greedy, strict=True)],
        "unknown_people": choice.unknown,
    }


def size_answer(found, choice, index):
    """One size: dimensions, whom it is drawn for, who takes it, and a request that holds it."""
    size = choice.sizes[index]
    boat, scaling = size.hull.boat, size.hull.scaling
    people = [person for person, taken in enumerate(choice.taken.tolist()) if taken == index]
    cautions = Counter(key for person in people for key in choice.verdicts[person].cautions)
    clean = [person for person in people if choice.verdicts[person].clean]
    return {
        "name": size.name,
        "size": boat_size_answer(boat),
        "factors": {name: number(getattr(scaling, name))
                    for name in ("length", "beam", "depth", "crown")},
        "boat_kg": number(size.hull.weight.mass_kg),
        "people": len(people), "share": number(len(people) / len(found.measured)),
        "people_without_caution": len(clean),
        "paddlers": spans(found.measured, people),
        "paddlers_without_caution": spans(found.measured, clean),
        "cautions_by_check": {title_of(key): count for key, count in cautions.most_common()},
        "cautions_by_key": dict(cautions.most_common()),
        "request": size_request(found, size),
    }


def spans(measured, people):
    """{measure: [least, most]} over some people, as `span`."""
    return {name: span(measured, people, name)
            for name in ("weight_kg", "stature_mm", "hip_width_mm")}


def span(measured, people, name):
    """[least, most] of one measure over some people, in kg or mm; None without any."""
    field, per = inside(name)
    values = [getattr(measured[person], field) * (per or 1.0) for person in people]
    return [number(min(values)), number(max(values))] if values else None


def size_request(found, size):
    """A request as JSON that gives this size again, its paddler the one it is drawn for."""
    trip = found.setting.trip
    made = request_for(size.hull, size.drawn, trip)
    return {
        "base": trip.base, "use": trip.use, "gear_kg": trip.gear_kg,
        "water": {"kind": trip.water.kind, "temperature_c": trip.water.temperature_c},
        "paddler": {"weight_kg": size.drawn.weight_kg,
                    "stature_mm": size.drawn.stature_m * MM_PER_M,
                    "hip_width_mm": round(size.drawn.hip_width_m * MM_PER_M, 6)},
        "fixed": dict(made.fixed),
    }


def ended_by(choice):
    """{key of a check: people left out by it}, in the size that comes nearest; the most first."""
    return dict(Counter(one.fails[0] for one in choice.verdicts if one.fails).most_common())


def region_answer(region, imprint=None):
    """A Region as JSON; `imprint` None is that of no job, of today."""
    boat, cautions = region.hull.boat, cautions_for(region.trip.water)
    imprint = imprint or Imprint(no_job(), boat_words(region.trip.base, boat), "", cautions)
    return {
        "job": imprint_answer(imprint),
        "design": boat.design.name, "use": region.trip.use, "gear_kg": number(region.trip.gear_kg),
        "water": water_answer(region.trip.water),
        "size": boat_size_answer(boat),
        "moves": "seat, footbrace and padding only",
        **({} if region.like is None else {"paddler": own_answer(region)}),
        "with_gear": extremes_answer(region.statures),
        "without_gear": extremes_answer(region.statures_without_gear),
        "ends": ends_answer(region.statures, region.hip_widths),
        "weight_against_stature": plane_answer(region.statures),
        "weight_against_hip_width": plane_answer(region.hip_widths),
        "without_caution": {
            "ends": ends_answer(region.clean_statures, region.clean_hip_widths),
            "weight_against_stature": plane_answer(region.clean_statures),
            "weight_against_hip_width": plane_answer(region.clean_hip_widths)},
        "unknown_bodies": region.unknown,
        "note": body_note(region),
        "cautions": list(cautions),
    }


def own_answer(region):
    """The paddler at hand, as measured, and the checks' verdict on them in this very boat."""
    return {**named(region.like, "weight_kg", "stature_m", "hip_width_m"),
            "status": region.own.status, "fails": titles_of(region.own.fails),
            "cautions": titles_of(region.own.cautions)}


def ends_answer(statures, hip_widths):
    """The least and the most of every measure of a paddler, with what ends it there."""
    pairs = {"weight_kg": extremes(statures), "stature_mm": (statures.least, statures.most),
             "hip_width_mm": (hip_widths.least, hip_widths.most)}
    return {name: {"least": edge_answer(least), "most": edge_answer(most)}
            for name, (least, most) in pairs.items()}


def extremes_answer(plane):
    lightest, heaviest = extremes(plane)
    return {"lightest": edge_answer(lightest), "heaviest": edge_answer(heaviest)}


def plane_answer(plane):
    """A Plane as rows and as a closed outline of [weight_kg, measure in mm]."""
    low, high = ("shortest", "tallest") if plane.measure == "stature" else ("narrowest", "widest")
    return {
        "rows": [{f"{plane.measure}_mm": mm(row.at_m), "lightest": edge_answer(row.lightest),
                  "heaviest": edge_answer(row.heaviest)} for row in plane.rows],
        low: edge_answer(plane.least), high: edge_answer(plane.most),
        "outline": [[number(weight), mm(at)] for weight, at in plane.outline],
    }


def edge_answer(edge):
    """An Edge; null where nobody fits."""
    return edge and {**named(edge, "weight_kg", "stature_m", "hip_width_m", "ended_by"),
                     "ended_by_key": edge.key}


def water_answer(water):
    return {"kind": water.kind, "temperature_c": number(water.temperature_c)}
