"""Every tool and every thing used up that a step names is on the lists of what to have."""

import re

import pytest

from sizer.export.plan_work import told_figures
from sizer.shop.work import filled
from tests.conftest import BASE_NAMES

# A word of the steps: what the lists must hold then.
WANTED = (
    (r"feeler", "feeler"),
    (r"caliper", "caliper"),
    (r"\bplumb\b", "plumb bob"),
    (r"trestles", "trestles"),
    (r"winding sticks", "winding sticks"),
    (r"triangle", "triangle"),
    (r"\blevel (on|along)", "level"),
    (r"straight edge", "straight edge"),
    (r"[Pp]encil", "pencil"),
    (r"\btape (it|over)|by tape|taped", "adhesive tape"),
    (r"waxed", "wax, block"),
    (r"with paper between", "paper"),
    (r"thinned", "thinner"),
    (r"[Rr]ags", "rags"),
    (r"tin\b", "tin with a lid"),
    (r"leather", "leather for the hand"),
    (r"[Kk]nife", "knife"),
    (r"[Hh]ot knife", "hot knife"),
    (r"pliers", "pliers"),
    (r"\bpalm\b", "sail palm"),
    (r"needle", "curved needle"),
    (r"eyelet", "eyelet setter"),
    (r"\biron or gun", "iron or hot-air gun"),
    (r"\blamp\b", "lamp"),
    (r"brush", "brushes"),
    (r"round bar|bar \d+ mm", "round bar"),
    (r"with 20 kg", "spring scale"),
    (r"weigh the boat", "scale for the boat"),
    (r"tackle", "tackle"),
    (r"push stick", "push stick"),
    (r"extraction", "extraction"),
    (r"P2", "dust mask P2"),
    (r"organic vapour", "mask for organic vapour"),
    (r"ears", "ear muffs"),
    (r"[Jj]ig saw", "jig"),
    (r"[Rr]outer", "router"),
    (r"[Pp]ull saw", "pull saw"),
    (r"planer", "planer"),
    (r"\b[Pp]lane\b", "plane"),
    (r"[Bb]ore", "drill"),
    (r"countersink", "countersink"),
    (r"clamp", "clamp"),
    (r"zip tie", "zip tie"),
    (r"string", "string for the centre line"),
    (r"lath", "lath"),
    (r"blocks, padded", "padded block"),
    (r"bears: no water", "block under the keel, seated"),
    (r"bears: the keel hangs", "block under the keel, below that board"),
    (r"To climb on, a board", "board to climb on"),
    (r"cleats under it", "cleat under that board"),
    (r"padded wedge", "padded wedge, right way up"),
    (r"elastic cord across", "elastic cord 5 mm (3/16 in) for the hand pump"),
    (r"cross feet under it", "cross foot under the beam"),
    (r"from a box beside", "box to stand on"),
    (r"in paint that holds", "paint that holds"),
    (r"ends seized", "twine"),
    (r"blocks on the strongback", "block under the keel, to lift"),
    (r"\b[Ss]team\b(?! or)", "steam box"),
    (r"screw", "screwdrivers"),
    (r"bolts", "spanner"),
    (r"[Ff]ile", "files"),
    (r"gloves", "gloves"),
    (r"sand\b", "abrasive paper"),
)


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def test_every_tool_that_a_step_names_is_on_a_list(job, bench):
    lists = " ".join(f"{one.what} {one.allowance}" for one in bench.materials.items
                     if not one.sawn)
    missing, met = [], 0
    for step in filled(told_figures(job, bench)):
        for word, thing in WANTED:
            if re.search(word, " ".join((step.do, step.check, step.danger))):
                met += 1
                if thing not in lists:
                    missing.append((step.key, word, thing))
    assert not missing
    assert met > 60


def test_every_drill_that_the_papers_ask_for_is_among_the_bits(bench):
    """Holes of lashings, sewing, bolts, pins and the form, and what is bored for screws."""
    tools = next(one.what for one in bench.materials.items if one.what.startswith("drill"))
    bits = dict(re.findall(r"([\d.]+) \(([\d/ ]+)\)", tools.split("countersink")[0]))
    assert bits == {"2.5": "3/32", "3": "1/8", "3.2": "1/8", "6.5": "1/4", "7": "9/32",
                    "8": "5/16", "40": "1 5/8"}  # each beside its own


def test_one_line_one_thing_to_protect(bench):
    lines = [one.what for one in bench.materials.items if one.group == "protection"]
    for mask in ("dust mask P2 (N95)", "mask for organic vapour", "goggles", "ear muffs"):
        assert sum(one.startswith(mask) for one in lines) == 1
    assert all(";" not in one for one in lines)


def test_small_pieces_of_hard_wood_have_stock_that_they_are_sawn_from(bench):
    """As long as both of a pair, and as thick and high as the rails where it is theirs."""
    small = [one for one in bench.materials.items if one.group == "outfit"
             and one.what.startswith("white ash")]
    assert len(small) == (4 if bench.thigh else 3)
    for one in small:
        long = float(re.search(r"both from (\d+) mm", one.allowance)[1])
        rails = "more of the rails' stock" in one.allowance
        thin, *sides = sorted(1000.0 * side for side in one.size_m)
        if rails:
            assert thin == 12.0
            assert min(sides) <= 30.0
            assert long >= 2.0 * max(sides)
        else:
            assert "rough 24 x 44 mm" in one.allowance
            assert long >= 2.0 * 60.0
