"""The same faults through the command: six surveys with columns in random order, every fault at its own cell."""

from __future__ import annotations

import csv
import datetime
import json
import math
import random
from pathlib import Path
from typing import Any

import openpyxl
from click.testing import CliRunner
from survey_books import CLEAN, Special
from test_check_faults import FAULTS, HELD_BY, clean_rows

from pipeline.cli import main
from pipeline.reading.book import address
from schemas.survey import SURVEY

CATALOGUE = Path(__file__).parents[1] / "input_examples" / "catalogue.xlsx"
WRITABLE = [f for f in FAULTS if not (isinstance(f[1], float) and math.isnan(f[1]))]


def as_typed(value: Any) -> Any:
    """What is written for a value of the table of faults: dates, errors and formulas as a workbook has them."""
    if not isinstance(value, Special):
        return value
    return {"date": lambda: datetime.date.fromisoformat(value.value), "error": lambda: value.value, "no_result": lambda: "=1+1"}[
        value.kind
    ]()


def write_survey(path: Path, seed: int) -> dict[str, tuple[str, set[str]]]:
    """One survey with every fault and clean rows between; code and cells of each faulty row by the row's number."""
    random_order = random.Random(seed)
    names = list(SURVEY.names)
    random_order.shuffle(names)
    kept = {"site_code": f"R{seed}", "mount_asked": None, "board_asked": None, "ring_asked": None}
    rows = [
        (CLEAN | others | kept | {"post_code": f"bad {n}", name: v}, name, code)
        for n, (name, v, code, others) in enumerate(WRITABLE)
    ]
    rows += [(r | kept | {"post_code": f"good {n} {r['post_code']}"}, "", "") for n in range(5) for r in clean_rows()]
    random_order.shuffle(rows)
    book = openpyxl.Workbook()
    book.active.append([SURVEY.column(n).titled for n in names])
    expected = {}
    for number, (row, name, code) in enumerate(rows, 2):
        book.active.append([as_typed(row.get(n)) for n in names])
        both = ("post_size", "size_basis") if code == "CONFLICT" else (name,)
        if code:
            expected[str(number)] = (
                f"{code} {address(number, names.index(name) + 1)}",
                {address(number, names.index(n) + 1) for n in both},
            )
    book.save(path)
    return expected


def test_every_fault_is_found_at_its_cell_and_no_clean_row_is_held(tmp_path: Path) -> None:
    surveys = tmp_path / "in"
    surveys.mkdir()
    expected = {f"{seed}.xlsx": write_survey(surveys / f"{seed}.xlsx", seed) for seed in range(6)}
    words = [
        "quote",
        str(surveys),
        "--catalogue",
        str(CATALOGUE),
        "--out",
        str(tmp_path / "out"),
        "--date",
        "2026-03-02",
        "--quiet",
    ]
    assert CliRunner().invoke(main, words).exit_code == 1
    with (tmp_path / "out" / "data" / "queries.csv").open(encoding="utf-8", newline="") as lines:
        queries = list(csv.DictReader(lines))
    for file, rows in expected.items():
        asked = {(q["code"], q["cell"]): q for q in queries if q["file"] == file and q["code"] != "ASKED"}
        missed = [e for e, _ in rows.values() if tuple(e.split()) not in asked]
        assert not missed, (file, missed)
        cells = {c for _, more in rows.values() for c in more}
        assert {c for _, c in asked} <= cells, (file, {c for _, c in asked} - cells)
        for (code, _), q in asked.items():
            assert (q["holds_row"] == "true") == (code == "CONFLICT" or q["name"] in HELD_BY), (file, q)
    counts = json.loads((tmp_path / "out" / "run.json").read_text("utf-8"))["counts"]
    assert counts["rows_read"] == counts["rows_quoted"] + counts["rows_held"] == 6 * (len(WRITABLE) + 20)
    assert counts["rows_held"] == 6 * sum(code == "CONFLICT" or name in HELD_BY for name, _, code, _ in WRITABLE)
