"""Every option of a call is read before anything is done, and all faults are told at once."""

import pytest

from sizer.cli import main

LOAD = "--mass-kg x --lcg-mm inf --water mud --temperature-c 99"


@pytest.mark.parametrize(("call", "places"), [
    (f"float none {LOAD} --vcg-mm nan --heel-deg 0,x,400",
     ["base", "--mass-kg", "--lcg-mm", "--water", "--temperature-c", "--vcg-mm", "--heel-deg",
      "--heel-deg"]),
    (f"drag none.json {LOAD} --speeds-mps 1,9",
     ["request", "--mass-kg", "--lcg-mm", "--water", "--temperature-c", "--speeds-mps"]),
    ("flood none --bow-bag-l -1 --stern-bag-l nan --paddler under",
     ["base", "--bow-bag-l", "--stern-bag-l", "--paddler"]),
    ("sections none --count 2.5", ["base", "--count"]),
    ("build none.json --out nowhere/new --stock-mm 1 --cloth-width-mm x --sheet-mm 1,x,900 "
     "--shop none.toml --cutter-mm 99 --relief round --plywood-mm 12,13:x --patterns quarter",
     ["request", "--out", "--shop", "--cutter-mm", "--relief", "--plywood-mm", "--sheet-mm",
      "--sheet-mm", "--sheet-mm", "--stock-mm", "--cloth-width-mm", "--patterns"]),
    ("population --count 0 --seed x --share-women 2 --weight-shift-kg 999 --weight-spread wide",
     ["--count", "--seed", "--share-women", "--weight-shift-kg", "--weight-spread"]),
    ("batch none.csv --base none --use war --resume --water tea --temperature-c 99 --workers 0",
     ["people", "base", "--use", "--resume", "--water", "--temperature-c", "--workers"]),
    ("range none.csv --base none --use war --sizes 0 --out nowhere/new --gear-kg nan --water tea "
     "--temperature-c 99",
     ["people", "base", "--use", "--sizes", "--out", "--gear-kg", "--water", "--temperature-c"]),
    ("who-fits none --use war --gear-kg 999 --water tea --temperature-c x",
     ["base", "--use", "--gear-kg", "--water", "--temperature-c"]),
])
def test_all_faults_of_a_call_are_told_at_once(call, places, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(call.split()) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert [line.split(":")[0] for line in said.err.splitlines()] == places
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("text", ["12345678901234567", "0"])
def test_a_whole_number_is_taken_to_its_last_digit(text, capsys):
    """Such as a seed, which a float would round."""
    main(["population", "--count", "1", "--seed", text])
    assert f"seed {text}\n" in capsys.readouterr().out
