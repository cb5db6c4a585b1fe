"""The house keeps its order: who imports whom, and what the texts promise."""

import ast
import re
import shlex
import subprocess
import sys
from pathlib import Path

from sizer.cli import main
from tests.cli.conftest import few_files, remembered
from tests.crowd.conftest import few_rows, fewest_boats

ROOT = Path(__file__).parent.parent
ORDER = ("errors", "units", "as_typed", "spreadsheet", "compiled", "rows", "border", "design",
         "paddler", "hull", "hydro", "fit", "stamp", "drawing", "shop", "job", "remedies", "built",
         "crowd", "scenes", "export", "book", "web", "cli", "__main__")
WEB_ONLY = ("streamlit", "plotly")


def modules():
    found = sorted((ROOT / "sizer").rglob("*.py"))
    assert len(found) > 100
    return found


def stage(dotted):
    parts = dotted.split(".")
    return ORDER.index(parts[1]) if len(parts) > 1 else -1


def imports(path):
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            yield node.module
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)


def test_a_module_imports_only_from_its_own_stage_or_an_earlier_one():
    assert [wrong for path in modules() for wrong in wrong_imports(path)] == []


def wrong_imports(path):
    own = ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
    for name in imports(path):
        top = name.split(".")[0]
        if ((top == "sizer" and stage(name) > stage(own))
                or (top in WEB_ONLY and not own.startswith("sizer.web"))):
            yield f"{own} imports {name}"


def commands(text):
    blocks = re.findall(r"```\n(.*?)```", text, re.S)
    joined = "\n".join(blocks).replace("\\\n", " ")
    return [line for line in joined.splitlines() if line.startswith(".venv/bin/python -m sizer ")]


def test_readme_commands_run_as_written(tmp_path, monkeypatch, capsys):
    """The first as a process; the others by a call, since each start takes a second. The code of
    a job is the one that `book save` drew."""
    text = (ROOT / "README.md").read_text("utf-8")
    request = re.search(r"echo '(.*?)' > request.json", text, re.S).group(1)
    (tmp_path / "request.json").write_text(request)
    lines = commands(text)
    assert len(lines) >= 3
    subprocess.run([sys.executable, *shlex.split(lines[0])[1:]], cwd=tmp_path, check=True,
                   capture_output=True, timeout=120)
    monkeypatch.chdir(tmp_path)
    few_files(monkeypatch)
    remembered(monkeypatch)
    fewest_boats(monkeypatch)
    few_rows(monkeypatch)
    monkeypatch.setattr("sizer.cli.crowd.cores", lambda: 1)  # several: crowd/test_batch.py
    drawn = ""
    for line in lines:
        line, _, into = line.replace("HK4729", drawn).partition(" > ")
        code = main(shlex.split(line)[3:])
        printed = capsys.readouterr()
        drawn = re.search(r'"code": "(\w{6})"', printed.out)[1] if " book save " in line else drawn
        assert code in ((0, 1) if " batch " in line else (0,)), (line, printed.err)
        if into:
            (tmp_path / into).write_text(printed.out, "utf-8")


def test_readme_names_every_base_and_use():
    from sizer.design.library import shipped_names
    from sizer.fit.uses import USES

    text = (ROOT / "README.md").read_text("utf-8")
    for name in (*shipped_names(), *USES):
        assert f"`{name}`" in text
