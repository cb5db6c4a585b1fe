"""The command `launch`, as a person meets it."""

import json

import pytest

from tests.cli.test_cli import REQUEST, refused, sizer

pytestmark = pytest.mark.usefixtures("remembered")
TRIAL = {"boat_kg": 15.5, "heel": [{"kg": 0.5, "off_centre_mm": side * 250, "height_mm": 300,
                                  "heel_deg": side * 2.0} for side in (1, -1, 1)]}


def test_launch_answers_the_contract_with_cautions_first(tmp_path):
    (tmp_path / "request.json").write_text(json.dumps(REQUEST))
    (tmp_path / "trial.json").write_text(json.dumps(TRIAL))
    done = sizer("launch", "request.json", "trial.json", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    answer = json.loads(done.stdout)
    assert next(iter(answer)) == "cautions"
    assert "wet exits" in answer["cautions"][0]
    assert "every PFD fastened" in answer["cautions"][1]
    assert "a helper's hands on both gunwales all the time" in answer["cautions"][1]
    assert {"vcg_mm", "vcg_plus_minus_mm", "boat_kg", "lcg_mm"} <= set(answer["learnt"])
    assert answer["learnt"]["vcg_plus_minus_mm"] < answer["predicted"]["vcg_plus_minus_mm"]
    assert answer["learnt"]["boat_kg"] == pytest.approx(15.5, abs=0.5)
    for odds in (answer["odds_before"], answer["odds_after"]):
        assert 0.0 <= odds["all_hard"] <= odds["gm"] + 0.05 <= 1.05
    assert 0.0 < answer["next_weights"]["safest_kg"] * 0.3 < answer["turns_over_at_kgm"]
    assert any("it swings 2.00° in the mean" in one for one in answer["says"])
    # 100 g heels it by 12
    tippy = TRIAL | {"heel": [one | {"kg": 0.1, "heel_deg": 6.0 * one["heel_deg"]}
                              for one in TRIAL["heel"]]}
    (tmp_path / "trial.json").write_text(json.dumps(tippy))
    told = sizer("launch", "request.json", "trial.json", cwd=tmp_path)
    assert "do not go out" in json.loads(told.stdout)["says"][0], told.stderr
    (tmp_path / "trial.json").write_text(json.dumps(TRIAL | {"boat_kg": 60}))
    told = json.loads(sizer("launch", "request.json", "trial.json", cwd=tmp_path).stdout)
    assert "likelihood" in told["says"][0]
    assert not any("as steady as is asked for" in one for one in told["says"])
    assert told["next_weights"] is None  # the readings disagree: no more aboard
    assert told["left_out"] == ["boat_kg"]
    assert told["learnt"]["boat_kg"] == pytest.approx(told["predicted"]["boat_kg"], abs=0.2)
    assert told["odds_after"]["all_hard"] <= answer["odds_after"]["all_hard"]
    (tmp_path / "trial.json").write_text(json.dumps(
        TRIAL | {"boat_kg": 60, "confirmed": told["left_out"]}))
    sure = json.loads(sizer("launch", "request.json", "trial.json", cwd=tmp_path).stdout)
    assert (sure["left_out"], sure["next_weights"]) == ([], None)
    assert sure["learnt"]["boat_kg"] > 50.0
    bad = TRIAL | {"boat_kg": "heavy"}
    (tmp_path / "trial.json").write_text(json.dumps(bad))
    assert "boat_kg" in refused("launch", "request.json", "trial.json", cwd=tmp_path)[0]
