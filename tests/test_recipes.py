"""Each recipe of DEVELOPERS.md, 'How to add', followed to the letter in a copy of the program, which then does its main job."""

from __future__ import annotations

import csv
import re
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import openpyxl
import pytest

ROOT = Path(__file__).resolve().parents[1]
Edit = tuple[str, str, str]
"""A file, the text before which something is put in, and what."""

RULE: tuple[Edit, ...] = (
    (
        "schemas/findings.py",
        ')  # fmt: skip\n"""Rules about a post with a mount',
        """    RuleWords(
        "COVER", "cover of the post", "not covered",
        passes="square", confirms="sound", fails="any other",
        source="common practice", confirmed_by="whoever looks at the post", column="material",
    ),
""",
    ),
    ("pipeline/rules/fit.py", '}\n"""What each row of schemas.findings', '    "COVER": (cover, sentences.cover),\n'),
    (
        "pipeline/rules/fit.py",
        "FUNCTIONS: dict[",
        """def cover(case: Case) -> Finding:
    square, sound = case.posts.shape == 1, case.posts.condition == 0
    return finding("COVER", answer(square[:, None], sound[:, None]))


""",
    ),
    (
        "pipeline/rules/sentences.py",
        "def board(",
        """def cover(f: Facts) -> str:
    return f"The post is of {f.post['material']}."


""",
    ),
)


LOAD = '''def icicle(ring: Floats) -> Floats:
    """Moment of an icicle (k,) [N m].

    ring: z_r (k,) [m]. Range: any.
    Source: common practice.
    """
    return 10 * ring


'''
LOAD_ROW = '    row("M_X", "Moment of an icicle", "N m", "M_X = 10 z_r", play.icicle, "z_r"),\n'
TABLE = """COLOURS = Table(
    "Colours", "one colour", (Column("colour", "Colour", "code", needed=True, help="Its name."),), key=("colour",),
    may_be_missing=True,
)

"""
SHEET = '''"""A sheet with a remark."""

from pipeline.xlsx.page import Book


def write_remark(book: Book) -> None:
    """Writes the sheet."""
    page = book.page("Remark")
    page.title("A remark")
    page.print_as(0, "Remark")
'''

OTHERS: dict[str, tuple[Edit, ...]] = {
    "a unit": (("pipeline/units.py", '    _unit("yd", "length"', '    _unit("hand", "length", "hand", "hands"),\n'),),
    "a way to write a measure": (("pipeline/intake/measures/forms.py", '    (rf"{Q}-U", hyphened),', '    (rf"{Q}U-", one),\n'),),
    "a word or a language": (("schemas/languages/english.py", "timber|wooden|lumber", "oaken|"),),
    "a column of the survey": (
        (
            "schemas/survey.py",
            '        Column(\n            "notes", "Notes", "text",',
            '        Column("painted", "Painted", "choice", values=YES_NO, help="Whether it is painted."),\n',
        ),
        ("schemas/surveyed_post.py", "    notes: str | None = None\n", "    painted: str | None = None\n"),
    ),
    "a load term": (
        ("pipeline/loads/play.py", "def push_moment(", LOAD),
        ("pipeline/loads/loading.py", '    row("z_t", "Board', LOAD_ROW),
        ("pipeline/loads/loading.py", '"M_B.storm", "M_S.storm"),\n}', '"M_X", '),
    ),
    "a policy setting": (
        (
            "schemas/policy.py",
            '    Setting("options_per_post"',
            '    Setting("least_posts", "whole", "1", "", "fewest posts of an order", _OWN, at_least=0),\n',
        ),
    ),
    "a catalogue table": (
        ("schemas/catalogue.py", "CATALOGUE: tuple[Table, ...] = (", TABLE),
        ("schemas/catalogue.py", "    MOUNTS, BOARDS, RINGS, PAIRINGS,", "    COLOURS,\n"),
    ),
    "a column of a data file": (
        (
            "schemas/results.py",
            '        _text("workbook", "Workbook", "Path of the site',
            '        _whole("rows", "Rows", "Rows."),\n',
        ),
        ("pipeline/site/assemble.py", '        "workbook": workbook,', '        "rows": len(r.posts),\n'),
    ),
    "a sheet": (
        ("pipeline/sheets/remark.py", "", SHEET),
        ("pipeline/sheets/site_workbook.py", "from pipeline.sheets.report", "from pipeline.sheets.remark import write_remark\n"),
        ("pipeline/sheets/site_workbook.py", "    write_basis(book", "    write_remark(book)\n"),
    ),
    "a change of the ledger's tables": (
        (
            "pipeline/ledger/schema.py",
            "\n)\n",
            '\n    ("999 remarks", "CREATE TABLE remarks (site TEXT PRIMARY KEY);"),',
        ),
    ),
}
"""What each of the other recipes comes to."""


def recipes() -> dict[str, str]:
    """What is added -> what to do, from DEVELOPERS.md."""
    text = (ROOT / "DEVELOPERS.md").read_text().split("## How to add")[1].split("\n## ")[0]
    return dict(re.findall(r"^- \*\*(.*?)\*\*: (.*?)(?=^- |\Z)", text, re.S | re.M))


def copy_with(edits: Sequence[Edit], to: Path) -> None:
    """A copy of the program in which the edits are made."""
    for folder in ("pipeline", "schemas"):
        shutil.copytree(ROOT / folder, to / folder, ignore=shutil.ignore_patterns("__pycache__"))
    for name, before, put_in in edits:
        text = (to / name).read_text() if before else ""
        assert not before or text.count(before) == 1, (name, before)
        (to / name).write_text(text.replace(before, put_in + before) if before else put_in)


def quote_examples(folder: Path) -> list[dict[str, str]]:
    """The main job of the copy on the examples: every site that can be is quoted; its rows of mount_fit."""
    examples = ROOT / "input_examples"
    words = ("quote", examples / "surveys", "--catalogue", examples / "catalogue.xlsx", "--out", folder / "out")
    line = [sys.executable, "-m", "pipeline", *map(str, words), "--date", "2026-03-02", "--quiet"]
    done = subprocess.run(line, cwd=folder, capture_output=True, text=True, timeout=300, check=False)
    assert done.returncode == 1, done.stderr  # rows are held, no site fails
    assert "could not be quoted" not in done.stderr
    with (folder / "out" / "data" / "mount_fit.csv").open(encoding="utf-8", newline="") as f:
        return list(csv.DictReader(f))


@pytest.mark.slow
def test_every_other_recipe_ends_with_a_program_that_works(tmp_path: Path) -> None:
    assert {"a rule of fit", "a layout", *OTHERS} == set(recipes()), "a layout is held by its properties"
    copy_with([edit for edits in OTHERS.values() for edit in edits], tmp_path)
    assert quote_examples(tmp_path)
    out = tmp_path / "out"
    assert '"rows"' in (out / "data" / "datapackage.json").read_text()
    workbook = next(iter(sorted(out.glob("sites/*/*-r1.xlsx"))))
    assert "Remark" in openpyxl.load_workbook(workbook, read_only=True).sheetnames
    with sqlite3.connect(out / "ledger.sqlite") as db:
        assert db.execute("SELECT count(*) FROM remarks").fetchone() == (0,)


@pytest.mark.slow
def test_a_new_rule_of_fit_reaches_files_workbooks_and_remedies(tmp_path: Path) -> None:
    said = recipes()["a rule of fit"]
    assert {name.rpartition("/")[2] for name, _, _ in RULE} <= {f"{word}.py" for word in re.findall(r"(\w+)\.py", said)}
    copy_with(RULE, tmp_path)
    rows = quote_examples(tmp_path)
    assert any("COVER" in r["failed"].split(";") for r in rows)
    assert any("COVER" in r["confirm"].split(";") for r in rows)
