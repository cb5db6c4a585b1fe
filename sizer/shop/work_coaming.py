"""How the coaming's strips are sawn and bent: words of the {name}s in work.toml."""

from sizer.shop.coaming import WALL_M
from sizer.shop.said import both
from sizer.shop.tools import FEELER_MM
from sizer.shop.trade_sizes import fine_text, section_text
from sizer.units import MM_PER_M

STRIP_OFF = fine_text(0.1)  # of a strip as it is sawn, mm; our judgement
THIN_RIP = (  # common practice, no source
    "the strip on the blade's free side, never between blade and fence; the fence set anew for "
    "each; riving knife, insert without a gap, feather board ahead of the blade, push block over "
    "it; a helper only takes the strip, and never pulls; or a band saw, and plane. [p]")


def planed_words(rim):
    """Which end the wall's strips are as wide as, and where and when its lower edge is planed."""
    front, back = (round(one * MM_PER_M) for one in rim.wall_m)
    if front == back:
        return "Its strips are bent at the width that it has all round: nothing is planed."
    wide, narrow = ("in front", "behind") if front > back else ("behind", "in front")
    return (f"Its strips are bent at the width {wide}; plane its lower edge before it is sat in, "
            f"nothing {wide}, more and more towards the other end, "
            f"{both(abs(front - back) / MM_PER_M)} {narrow}: notches come only then, their depth "
            "from the planed edge.")


def bent_words(rim):
    """{name: words} of a Coaming."""
    strips = rim.strips
    inside = f"{both(rim.length_m)} along its slope x {both(rim.width_m)}"
    return {
        "wall_planed": f"Off the form when the lip has cured too. {planed_words(rim)}",
        "feeler": fine_text(FEELER_MM),
        "strip_true": f"By caliper each is {section_text(strips[0].thickness_m)}, off by "
                      f"{STRIP_OFF} at most, its ends and its middle alike: plane or sort out what "
                      f"is not.",
        "thin_rip": THIN_RIP,
        "form": inside, "coaming_size": inside,
        "coaming_strips": " ".join(
            f"{one.count} strips for the {one.name.removeprefix('coaming ')}, "
            f"{both(one.width_m)} x {section_text(one.thickness_m)}, "
            f"{both(one.length_m)} long."
            for one in strips),
        "wall": section_text(WALL_M),
        "coaming_radius": both(rim.tightest_m)}
