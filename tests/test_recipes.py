"""Each recipe of DEVELOPERS.md, 'How to add', followed to the letter in a copy of the program, which then does its main job."""

from __future__ import annotations

import csv
import re
import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

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


def recipes() -> dict[str, str]:
    """What is added -> what to do, from DEVELOPERS.md."""
    text = (ROOT / "DEVELOPERS.md").read_text().split("## How to add")[1].split("\n## ")[0]
    return dict(re.findall(r"^- \*\*(.*?)\*\*: (.*?)(?=^- |\Z)", text, re.S | re.M))


def copy_with(edits: Sequence[Edit], to: Path) -> None:
    """A copy of the program in which the edits are made."""
    for folder in ("pipeline", "schemas"):
        shutil.copytree(ROOT / folder, to / folder, ignore=shutil.ignore_patterns("__pycache__"))
    for name, before, put_in in edits:
        text = (to / name).read_text()
        assert text.count(before) == 1, (name, before)
        (to / name).write_text(text.replace(before, put_in + before))


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


def test_a_new_rule_of_fit_reaches_files_workbooks_and_remedies(tmp_path: Path) -> None:
    said = recipes()["a rule of fit"]
    assert {name.rpartition("/")[2] for name, _, _ in RULE} <= {f"{word}.py" for word in re.findall(r"(\w+)\.py", said)}
    copy_with(RULE, tmp_path)
    rows = quote_examples(tmp_path)
    assert any("COVER" in r["failed"].split(";") for r in rows)
    assert any("COVER" in r["confirm"].split(";") for r in rows)
