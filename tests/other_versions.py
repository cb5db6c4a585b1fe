"""Tries the lowest versions that pyproject.toml takes, then the newest that there are.

`.venv/bin/python tests/other_versions.py` installs each lot in a virtual environment of its own,
which finds the rest in the one that runs this; a fit, a package, the plan set in it, and a page are
then made with it, and the answer is the same boat.
"""

import json
import os
import subprocess
import sys
import tempfile
import tomllib
from concurrent.futures import ThreadPoolExecutor
from importlib.metadata import version
from pathlib import Path

from packaging.requirements import Requirement

ROOT = Path(__file__).parents[1]
REQUEST = {"base": "day-boat", "use": "coastal-day",
           "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
PAGE = "from tests.web.app_screen import opened; opened('boat')"
WORK = ("fit", "fit", "-"), ("build", "build", "-", "--out", "package")
SAME_MM = 0.1


def needs():
    """The Requirements of the package itself."""
    given = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]
    return [Requirement(one) for one in given]


def lowest(need):
    """A requirement of the very version that a Requirement begins with."""
    floor, = (one.version for one in need.specifier if one.operator == ">=")
    return f"{need.name}=={floor}"


def environment(folder, wanted, *more):
    """The python of a new virtual environment that has `wanted`, and else what this one has."""
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", folder], check=True)
    python, = folder.glob("bin/python")
    own, = folder.glob("lib/python*/site-packages")
    (own / "rest.pth").write_text(
        "\n".join(one for one in sys.path if one.endswith("site-packages")) + "\n")
    subprocess.run([sys.executable, "-m", "pip", "-q", "--disable-pip-version-check", "--python",
                    python, "install", *more, *wanted], check=True)
    return python


def tried(python, folder):
    """The answer of a fit by that python, which has also built, drawn and shown a page."""
    folder.mkdir()
    env = {**os.environ, "PYTHONPATH": str(ROOT), "NUMBA_CACHE_DIR": str(folder / "compiled"),
           "OPENBLAS_NUM_THREADS": "1"}
    said = {}
    for name, *words in WORK:
        done = subprocess.run([python, "-m", "sizer", *words], input=json.dumps(REQUEST), text=True,
                              cwd=folder, env=env, stdout=subprocess.PIPE, check=True)
        said[name] = json.loads(done.stdout)
    subprocess.run([python, "-c", PAGE], cwd=folder, env=env, stderr=subprocess.PIPE, check=True)
    return said


def versions(python):
    """{name: version} of the package's own dependencies, as that python finds them."""
    names = [one.name for one in needs()]
    show = f"from importlib.metadata import version; print(*map(version, {names!r}))"
    done = subprocess.run([python, "-c", show], check=True, text=True, stdout=subprocess.PIPE)
    return dict(zip(names, done.stdout.split(), strict=True))


def lot(folder, word, wanted, more):
    """(word, {name: version}, answer); no answer where nothing is other than here."""
    venv = folder / f"{word}-venv"
    python = environment(venv, wanted, *more)
    others = any(venv.glob("lib/python*/site-packages/*.dist-info"))
    return word, versions(python), tried(python, folder / word) if others else None


def main():
    """Ends with an exception, and so with exit code 1, where anything fails."""
    lots = (("lowest", [lowest(one) for one in needs()], ()),
            ("newest", list(map(str, needs())), ("--upgrade", "--upgrade-strategy", "eager")))
    with tempfile.TemporaryDirectory() as elsewhere, ThreadPoolExecutor(len(lots)) as pool:
        running = [pool.submit(lot, Path(elsewhere), *one) for one in lots]
        own = tried(sys.executable, Path(elsewhere, "own"))
        for word, found, said in (one.result() for one in running):
            if word == "lowest":
                assert said is not None
                assert all(f"{name}=={one}".startswith(low) for (name, one), low in zip(
                    found.items(), lots[0][1], strict=True)), found
            if said is None:
                print(f"the {word} versions are those here")
                continue
            for key, size_mm in own["fit"]["size"].items():
                assert abs(said["fit"]["size"][key] - size_mm) <= SAME_MM, key
            assert {**said["build"], "out": ""} == {**own["build"], "out": ""}
            others = [f"{name} {one}" for name, one in found.items() if one != version(name)]
            print(f"works with the {word} versions: {', '.join(others)}")


if __name__ == "__main__":
    main()
