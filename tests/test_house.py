"""Who imports whom, and prose that must stay true."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from pipeline.cli import main

ROOT = Path(__file__).resolve().parent.parent
HEAVY = {"pandas", "pandera", "pint", "openpyxl", "xlsxwriter", "pyarrow", "distributed"}
SHELL = {"click", "pathlib", "sqlite3", "os", "time", "datetime", "subprocess", "filelock", "xlrd"} | HEAVY
PURE = ("rules", "loads", "money")
NEVER_RULES = ("intake", "reading", "marking", "forms", "sheets", "xlsx", "output", "ledger")
KNOW_CLICK = {"cli.py", "cli_arguments.py", "cli_results.py", "messages.py", "terminal.py", "check.py", "preview.py"}


def imports(path: Path) -> Iterator[str]:
    """Modules that a file imports, wherever in it."""
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            yield from (a.name for a in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


def files(folder: str) -> list[Path]:
    return sorted((ROOT / folder).rglob("*.py"))


def test_schemas_know_nothing_of_the_pipeline() -> None:
    assert [(p.name, m) for p in files("schemas") for m in imports(p) if m.startswith("pipeline")] == []


@pytest.mark.parametrize("package", PURE)
def test_the_core_opens_nothing(package: str) -> None:
    found = [(p.name, m) for p in files(f"pipeline/{package}") for m in imports(p)]
    assert [f for f in found if f[1].split(".")[0] in SHELL] == []
    allowed = {f"pipeline.{package}"} | ({"pipeline.loads.load_arrays"} if package == "rules" else set())
    others = [f for f in found if f[1].startswith("pipeline.") and not any(f[1].startswith(a) for a in allowed)]
    assert others == []


@pytest.mark.parametrize("package", NEVER_RULES)
def test_the_shell_knows_no_rules(package: str) -> None:
    found = [(p.name, m) for p in files(f"pipeline/{package}") for m in imports(p)]
    assert [f for f in found if f[1].startswith(("pipeline.rules", "pipeline.loads", "pipeline.site", "pipeline.run"))] == []


def test_click_is_known_to_the_command_only() -> None:
    assert {p.name for p in files("pipeline") if "click" in imports(p)} <= KNOW_CLICK


def test_no_file_is_longer_than_a_sitting() -> None:
    long = {
        str(p.relative_to(ROOT)): n
        for f in ("pipeline", "schemas")
        for p in files(f)
        if (n := len(p.read_text().splitlines())) > 310
    }
    assert long == {}


def test_no_room_for_odds_and_ends() -> None:
    names = {p.stem for f in ("pipeline", "schemas", "tests") for p in files(f)}
    assert not names & {"utils", "helpers", "common", "misc", "util"}


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["quote"], ["quote", "--nonsense"]])
def test_help_and_wrong_use_load_nothing_heavy(words: list[str]) -> None:
    code = (
        "import sys\nfrom pipeline.cli import main\n"
        f"try: main({words!r})\nexcept SystemExit: pass\nprint(*sys.modules, file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = {m.split(".")[0] for m in done.stderr.split()}
    assert not loaded & (HEAVY | {"numpy"})


def test_every_command_has_help_and_stands_in_the_readme() -> None:
    readme = (ROOT / "README.md").read_text()
    for name, command in main.commands.items():
        assert command.help
        assert command.epilog
        assert f"postquote {name}" in readme
        for option in command.params:
            if isinstance(option, click.Option):
                assert option.help, (name, option.name)


def test_ci_runs_the_readme_s_second_command_and_the_slow_tests() -> None:
    blocks = re.findall(r"```sh\n(.*?)```", (ROOT / "README.md").read_text(), re.S)
    lines = (ROOT / ".ci" / "run").read_text().strip().splitlines()
    assert lines[-2:] == [blocks[1].strip(), ".venv/bin/python -m pytest -m slow"]


def test_the_top_level_is_as_agreed() -> None:
    done = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode:
        pytest.skip("not a git checkout")
    top = {name.split("/")[0] for name in done.stdout.splitlines() if not name.startswith(".")}
    agreed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "pipeline", "schemas", "input_examples", "output_examples", "tests"}
    assert top <= agreed


DOCUMENTED = {"_exit", "_asdict", "_replace", "_fields", "_make"}
"""Names that begin so and are public all the same: os, and named tuples."""


def test_only_public_names_of_libraries_and_of_each_other() -> None:
    found = {
        (path.name, node.attr)
        for path in files("pipeline")
        for node in ast.walk(ast.parse(path.read_text()))
        if isinstance(node, ast.Attribute)
        and re.match(r"_[a-z]", node.attr)
        and not (isinstance(node.value, ast.Name) and node.value.id in ("self", "cls"))
        and node.attr not in DOCUMENTED
        and f"def {node.attr}(" not in path.read_text()
    }
    assert found == set()
