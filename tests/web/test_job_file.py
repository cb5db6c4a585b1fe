"""Job files: what comes back, and what is refused without changing anything."""

import hashlib
import json

import pytest

from sizer.design.library import shipped_folder
from sizer.errors import BadInput
from sizer.web.draft import Draft, Variant
from sizer.web.job_file import FORMAT, MOST_BYTES, job_name, job_text, opened_job
from sizer.web.session import OWN


@pytest.fixture
def one():
    drawn = Draft(use="coastal-day", base="long-tourer", notes="blue skin, “long” feet",
                  follow=True)
    for key, text in (("weight_kg", "13 st 4"), ("stature_mm", "5 ft 10"),
                      ("hip_width_mm", "38,5 cm")):
        drawn = drawn.enter(key, text)
    drawn = drawn.hold("beam_mm", 560.0).wish("steadiness", -0.5)
    return drawn.but(variants=(Variant(name="Slim <b>", wishes=drawn.wishes()),))


def resealed(content):
    """A job file whose sum is right, whatever is in it."""
    content = {key: value for key, value in content.items() if key != "sum"}
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return json.dumps(content | {"sum": hashlib.sha256(text.encode()).hexdigest()}).encode()


def changed(one, **parts):
    content = json.loads(job_text(one))
    return resealed(content | parts)


def test_a_saved_job_comes_back_whole(one):
    opened = opened_job(job_text(one).encode())
    assert opened.notes == one.notes
    assert opened.remarks == ()
    assert [kept.name for kept in opened.variants] == ["Slim <b>"]
    other = Draft().taking(opened.wishes)
    assert other.request() == one.request()
    assert other.request()["wishes"] == {"steadiness": -0.5}
    assert other.request()["follow"] is True
    assert other.entries == one.entries
    assert Draft().taking(opened.variants[0].wishes).request() == one.request()


def test_cautions_and_the_base_design_are_in_the_file(one):
    content = json.loads(job_text(one))
    assert any("PFD" in caution for caution in content["cautions"])
    assert "[[frame]]" in content["base_designs"]["long-tourer"]
    assert content["program"]


@pytest.mark.parametrize("at", [1, 100, 2000, -3])
def test_a_cut_file_is_called_damaged(one, at):
    with pytest.raises(BadInput, match="damaged"):
        opened_job(job_text(one).encode()[:at])


def test_one_changed_figure_is_called_damaged(one):
    text = job_text(one)
    assert "560.0" in text
    with pytest.raises(BadInput, match=r"damaged.*Nothing was changed"):
        opened_job(text.replace("560.0", "590.0").encode())


def test_a_newer_file_says_so(one):
    with pytest.raises(BadInput, match=r"newer version.*Update the program"):
        opened_job(changed(one, sizer_job=FORMAT + 1, program="9.9"))


def test_a_job_saved_before_there_were_wishes_opens_without_any(one):
    content = json.loads(job_text(one))
    older = {key: value for key, value in content["wishes"].items()
             if key not in ("wished", "follow")}
    opened = opened_job(changed(one, sizer_job=1, wishes=older, variants=[]))
    other = Draft().taking(opened.wishes)
    assert other.held == one.held
    assert "wishes" not in other.request()
    assert "follow" not in other.request()


def test_a_file_of_format_5_knows_no_water_temperature_that_cannot_be(one):
    wishes = json.loads(job_text(one))["wishes"]
    del wishes["water_unread"]
    older = opened_job(changed(one, sizer_job=5, wishes=wishes))
    assert older.wishes == one.wishes()
    odd = opened_job(job_text(one.in_water("90")).encode())
    assert odd.wishes.water_unread == "90"


@pytest.mark.parametrize("raw", [b"", b"[]", b"{}", b"\xff\xfe", b"[" * 100_000, b"NaN",
                                 b'{"sizer_job": true}', b"x" * (MOST_BYTES + 1)])
def test_what_is_no_job_file_is_refused(raw):
    with pytest.raises(BadInput, match="job file"):
        opened_job(raw)


@pytest.mark.parametrize(("key", "value"), [
    ("use", "sailing"), ("base", "no-such-base"), ("water_c", 90), ("held", {"mast_mm": 3.0}),
    ("held", {"beam_mm": float("1e9")}), ("wished", {"room": 1.5}), ("wished", {"speed": 0.5}),
    ("follow", "perhaps"), ("entries", {"age": {}}), ("own_design", "x = ")])
def test_wishes_that_this_program_could_not_have_saved_are_refused(one, key, value):
    wishes = json.loads(job_text(one))["wishes"] | {key: value}
    with pytest.raises(BadInput):
        opened_job(changed(one, wishes=wishes))


@pytest.mark.parametrize("key", ["entries", "use", "held", "own_design"])
def test_wishes_with_a_part_missing_are_refused(one, key):
    wishes = json.loads(job_text(one))["wishes"]
    del wishes[key]
    with pytest.raises(BadInput, match=f"missing: {key}"):
        opened_job(changed(one, wishes=wishes))


def test_a_job_keeps_the_base_it_was_saved_with(one):
    older = json.loads(job_text(one))["base_designs"]
    older["long-tourer"] = older["long-tourer"].replace("Long tourer", "Long tourer of last year")
    opened = opened_job(changed(one, base_designs=older))
    assert "has changed since" in opened.remarks[0]
    assert opened.wishes.base == OWN
    assert "of last year" in opened.wishes.own_design
    assert opened.variants[0].wishes.base == OWN


def test_a_job_on_an_own_design_carries_it():
    one = Draft(base=OWN, own_name="My Boat!.toml",
                own_design=(shipped_folder() / "teaching-boat.toml").read_text("utf-8"))
    opened = opened_job(job_text(one).encode())
    assert opened.wishes.own_design == one.own_design
    assert job_name(one, "2026-01-31") == "job-own-design-2026-01-31.json"


def test_the_file_name_says_nothing_of_the_customer(one):
    assert job_name(one, "2026-01-31") == "job-long-tourer-2026-01-31.json"
    assert job_name(one, "2026-01-31", "HU3363") == "HU3363-job-long-tourer-2026-01-31.json"
