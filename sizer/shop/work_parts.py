"""In which step of the order of work the small parts are made, and the sheets that have their
sizes: words of the {name}s in work.toml."""

from sizer.shop.pedal_drawing import PEDAL
from sizer.shop.said import both, listed

OUTFIT = "Footbrace and thigh braces"  # the sheet's title
CUT = ("seat plate", "slat", "webbing strap")  # a seat's pieces, as its items name them


def made_words(bench):
    """{name: words} of a Bench."""
    seat = f"{listed(list(_seat(bench)))} (sizes: Seat)"
    panel = bench.seat.kind == "panel"
    posts = "; 2 posts of the thigh braces" if bench.thigh else ""
    other = "" if panel else f" Of other stock: {seat}."
    return {"small_parts": "From the same sheets and their offcuts: "
                           f"{_plywood(bench, [seat] if panel else [])}.{other}",
            "hard_parts": f"Make the footbrace's hard wood by {OUTFIT}: 2 rails, all "
                          f"{len(bench.foot_rails.holes_m)} holes bored, 2 stops, 2 blocks{posts}; "
                          "oil it once it is glued.",
            "glued": "; ".join(glued_faces(bench)), "laps": _laps(bench.stems),
            "beyond": _beyond(bench)}


def glued_faces(bench):
    """Every face that glue comes to after the oil, in words: what is glued later is told here."""
    rails = bench.foot_rails
    yield "the keel's ends and the stems' mouths, if you glue them"
    if bench.spacers:
        yield "the spacers' tenons and mortises"
    yield "the pedals' plates and cheeks, where their blocks lie"
    yield f"the rails' outer faces and the stops, where these meet at {rails.aft}"
    if bench.hip_pads:
        yield (f"the inner face of {bench.hip_pads.spacer} a side, where the hip pads' boards lie, "
               "and both faces of these")
    if bench.thigh:
        yield "the thigh braces' undersides, inner half, and their posts' feet with the wood there"


def _plywood(bench, seat):
    between = [f"2 of {one.name}" for one in bench.spacers]
    holes = [one.name for one in bench.frames if one.mortises]
    outfit = [f"2 pedals (pattern: {PEDAL}), their 2 cheeks and the strap",
              *(["2 boards of the hip pads"] if bench.hip_pads else []),
              *(["2 boards of the thigh braces"] if bench.thigh else [])]
    return "; ".join([
        *([f"{listed(between)}, and the mortises for them in {listed(holes)} (sizes: Frames and "
           "stems)"] if between else []),
        *seat, f"{listed(outfit)} (sizes: {OUTFIT})"])


def _seat(bench):
    """The seat's own pieces, counted."""
    counts = {}
    for one in bench.seat.items:
        name = next((word for word in CUT if one.size_m and word in one.what), None)
        if name:
            counts[name] = counts.get(name, 0) + round(one.quantity)
    return (f"{count} {name}s" for name, count in counts.items())


def _laps(stems):
    """What of each ridge's end is cut away to lie on a stem's head."""
    told = [f"{stem.ridge}, underside over its last {both(stem.ridge_lap.flat_m)} to "
            f"{both(stem.ridge_lap.left_m)} of {both(stem.ridge_lap.depth_m)}, whole again "
            f"{both(stem.ridge_lap.length_m)} from its end" for stem in stems if stem.ridge_lap]
    return f"Cut the laps that lie on the stems' heads: {'; '.join(told)}. " if told else ""


def _beyond(bench):
    first, last = bench.frames[0].name, bench.frames[-1].name
    heads = ("; over the stems' heads plane the ridges' edges down until no step is left under "
             "the skin") if any(one.ridge_lap for one in bench.stems) else ""
    return (f"Beyond {first} and {last} no figure is told: carry each slope on to the stick's end "
            f"in the same sweep, by a straight edge from stick to stick, fair into the stem's "
            f"edge{heads}.")
