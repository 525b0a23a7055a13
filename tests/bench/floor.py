"""The floor: the same survey files read by openpyxl, the same cells written by XlsxWriter, nothing computed.

Run as a script, so that it is measured in a process of its own: floor.py SURVEYS OUT EVERY. Only each
EVERYth workbook's cells are written, and their time counts EVERY times; getting at the cells is not counted.
"""

from __future__ import annotations

import io
import json
import sys
import time
from pathlib import Path
from typing import Any

import openpyxl
import xlsxwriter

Cells = list[tuple[str, list[tuple[int, int, Any, int]]]]


def read(surveys: Path) -> float:
    """Processor time of reading every survey [s]."""
    start = time.process_time()
    for path in sorted(surveys.rglob("*.xlsx")):
        for sheet in openpyxl.load_workbook(path):
            for _ in sheet.iter_rows(values_only=True):
                pass
    return time.process_time() - start


def cells(path: Path) -> Cells:
    """Cells of a workbook by sheet: row, column, value or formula, number of their format."""
    book = openpyxl.load_workbook(path)
    return [(s.title, [(c.row - 1, c.column - 1, c.value, c.style_id) for row in s.iter_rows() for c in row]) for s in book]


def write(book: Cells, formats: bool) -> float:
    """Processor time of writing the cells to a workbook in memory [s], bare or each with a format."""
    start = time.process_time()
    made = xlsxwriter.Workbook(io.BytesIO(), {"in_memory": True})
    looks = [made.add_format({"font_size": 10 + n}) for n in range(40)] if formats else [None]
    for name, content in book:
        sheet = made.add_worksheet(name)
        for row, column, value, style in content:
            if value is not None or formats:
                sheet.write(row, column, value, looks[style % len(looks)])
    made.close()
    return time.process_time() - start


def main(surveys: str, out: str, every: str) -> None:
    """Prints what it took."""
    step = int(every)
    bare = styled = count = 0.0
    for path in sorted(Path(out).glob("sites/*/*.xlsx"))[::step]:
        content = cells(path)
        count += sum(len(c) for _, c in content)
        bare += write(content, False)
        styled += write(content, True)
    print(json.dumps({"read": read(Path(surveys)), "bare": bare * step, "styled": styled * step, "cells": count * step}))


if __name__ == "__main__":
    main(*sys.argv[1:])
