"""Mutated example surveys through the command: an answer for each file, every row quoted or held, no traceback."""

from __future__ import annotations

import csv
import io
import json
import random
import re
import subprocess
import sys
import zipfile
from collections import defaultdict
from pathlib import Path

import pytest
from test_hostile_fuzz import mutated

ROOT = Path(__file__).resolve().parent.parent
EXAMPLES = sorted(p for p in (ROOT / "input_examples" / "surveys").rglob("*") if p.is_file())
ODD = (
    "", "about 8 ft", "#N/A", "=1+1", "8-6", "1e999", "NaN", "-1", "?", "-", "'", '"', "3 1/2\"", "102", "None", "8'6\" 2 mm",
    "\u202eabc", "\ufffd", "x" * 3000, "0", "TRUE", "2026-08-06", "11/2\"", "99999999999999999999", "NPS 3", "DN 65", "1,2,3",
    "&amp;", "<v>",
)  # fmt: skip
PARTS = re.compile(r"xl/worksheets/|xl/sharedStrings|xl/styles|xl/workbook|content\.xml")


def renamed(text: str, number: int) -> str:
    """The text with site codes of its own, so that the copies are no repeats of each other."""
    return re.sub(r"\b([A-Z]{2})-(?=[A-Z0-9]{2,})", rf"\g<1>{number}-", text)


def odd_text(text: str, pattern: str, rng: random.Random) -> str:
    """The text with some of the values that a pattern finds replaced."""
    places = list(re.finditer(pattern, text))
    for place in sorted(rng.sample(places, min(len(places), rng.choice((0, 1, 1, 3)))), key=lambda m: -m.start()):
        text = text[: place.start()] + rng.choice(ODD).replace("<", "&lt;") + text[place.end() :]
    return text


def odd_package(data: bytes, number: int, rng: random.Random) -> bytes:
    """A package that stays a sound zip, with values or bytes of one part changed."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        names = old.namelist()
        chosen = rng.choice([n for n in names if PARTS.match(n)] or names)
        for name in names:
            part = old.read(name)
            if name.endswith(".xml") and PARTS.match(name):
                part = renamed(part.decode(), number).encode()
            if name == chosen:
                values = rng.random() < 0.7 and name.endswith(".xml")
                part = (
                    odd_text(part.decode(), r"(?<=>)[^<>]+(?=</(?:t|v|text:p)>)", rng).encode() if values else mutated(part, rng)
                )
            new.writestr(name, part)
    return out.getvalue()


def odd_file(path: Path, number: int, rng: random.Random) -> bytes:
    """One example with something done to it."""
    data = path.read_bytes()
    if rng.random() < 0.15:
        return mutated(data, rng)
    if data.startswith(b"PK") and zipfile.is_zipfile(path):
        return odd_package(data, number, rng)
    if path.suffix in (".csv", ".tsv"):
        text = renamed(data.decode("cp1252"), number)
        return (odd_text(text, r"(?<=[,;\t])[^,;\t\"\n]*(?=[,;\t])", rng) if rng.random() < 0.8 else text).encode(
            "cp1252", "replace"
        )
    return mutated(data, rng)


def command(*arguments: str) -> subprocess.CompletedProcess[str]:
    start = "from pipeline.cli import main; main()"
    return subprocess.run([sys.executable, "-c", start, *arguments], capture_output=True, text=True, cwd=ROOT)


def files_made(folder: Path, times: int, seed: str) -> int:
    rng = random.Random(seed)
    for number in range(times):
        path = EXAMPLES[number % len(EXAMPLES)]
        place = folder / f"{number // 100}" / f"{number}{path.suffix}"
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(odd_file(path, number, rng))
    return times


def held_rows(out: Path) -> dict[str, set[tuple[str, str]]]:
    """Rows that wait, by file, posts side by side each for itself; files with queries about no row too."""
    rows: dict[str, set[tuple[str, str]]] = defaultdict(set)
    with (out / "data" / "queries.csv").open(encoding="utf-8", newline="") as f:
        for q in csv.DictReader(f):
            rows[q["file"]] |= {(q["sheet"], q["record"])} if q["holds_row"] == "true" else set()
    return rows


def accounted_for(out: Path, files: int) -> None:
    """Every file has an answer and every row one place."""
    run = json.loads((out / "run.json").read_text(encoding="utf-8"))
    held = held_rows(out)
    assert len(run["surveys"]) == files
    for survey in run["surveys"]:
        assert survey["rows"] == survey["quoted"] + survey["held"] + survey["replaced"], survey
        assert survey["rows"] or survey["file"] in held or survey["notes"], survey
        assert len(held.get(survey["file"], ())) == survey["held"], survey
    counts = run["counts"]
    ended = counts["rows_quoted"] + counts["rows_held"] + counts["rows_replaced"]
    assert counts["rows_read"] == ended == sum(s["rows"] for s in run["surveys"])


def fuzz(tmp_path: Path, times: int, seed: str) -> None:
    files = files_made(tmp_path / "in", times, seed)
    catalogue, out = str(ROOT / "input_examples" / "catalogue.xlsx"), tmp_path / "out"
    done = command("quote", str(tmp_path / "in"), "--catalogue", catalogue, "--out", str(out), "--date", "2026-03-02")
    assert "Traceback" not in done.stderr
    assert done.returncode == 1, done.stderr[-2000:]
    accounted_for(out, files)


@pytest.mark.slow
def test_a_few_mutated_examples(tmp_path: Path) -> None:
    fuzz(tmp_path, 2 * len(EXAMPLES), "few")


@pytest.mark.slow
def test_many_mutated_examples(tmp_path: Path) -> None:
    fuzz(tmp_path, 1000, "many")


@pytest.mark.slow
def test_thousands_of_mutated_examples_checked(tmp_path: Path) -> None:
    files = files_made(tmp_path / "in", 2500, "thousands")
    done = command("check", str(tmp_path / "in"), "--json")
    assert "Traceback" not in done.stderr
    assert done.returncode == 1, done.stderr[-2000:]
    assert len(json.loads(done.stdout)["files"]) == files
