"""The floor: the same survey files read by openpyxl, the same cells written by XlsxWriter, nothing computed.

Run as a script, so that it is measured in a process of its own: floor.py SURVEYS OUT EVERY. Only each
EVERYth workbook's cells are written, and their time counts EVERY times; getting at the cells is not counted.
"""

from __future__ import annotations

import io
import json
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import openpyxl
import xlsxwriter

Cells = list[tuple[str, list[tuple[int, int, Any, int]]]]


@contextmanager
def watched(used: list[float]) -> Iterator[None]:
    """Adds what it takes: by the clock, and of the processor [s]."""
    clock, processor = time.perf_counter(), time.process_time()
    yield
    used[0] += time.perf_counter() - clock
    used[1] += time.process_time() - processor


def read(surveys: Path, used: list[float]) -> None:
    """Reads every survey."""
    with watched(used):
        for path in sorted(surveys.rglob("*.xlsx")):
            for sheet in openpyxl.load_workbook(path):
                for _ in sheet.iter_rows(values_only=True):
                    pass


def cells(path: Path) -> Cells:
    """Cells of a workbook by sheet: row, column, value or formula, number of their format."""
    book = openpyxl.load_workbook(path)
    return [(s.title, [(c.row - 1, c.column - 1, c.value, c.style_id) for row in s.iter_rows() for c in row]) for s in book]


def write(book: Cells, formats: bool, used: list[float]) -> None:
    """Writes the cells to a workbook in memory, bare or each with a format."""
    with watched(used):
        made = xlsxwriter.Workbook(io.BytesIO(), {"in_memory": True})
        looks = [made.add_format({"font_size": 10 + n}) for n in range(40)] if formats else [None]
        for name, content in book:
            sheet = made.add_worksheet(name)
            for row, column, value, style in content:
                if value is not None or formats:
                    sheet.write(row, column, value, looks[style % len(looks)])
        made.close()


def main(surveys: str, out: str, every: str) -> None:
    """Prints what it took, clock and processor."""
    step, count = int(every), 0
    reading, bare, styled = [0.0, 0.0], [0.0, 0.0], [0.0, 0.0]
    for path in sorted(Path(out).glob("sites/*/*.xlsx"))[::step]:
        content = cells(path)
        count += sum(value is not None for _, sheet in content for _, _, value, _ in sheet)
        write(content, False, bare)
        write(content, True, styled)
    read(Path(surveys), reading)
    whole = {n: [r + step * w for r, w in zip(reading, u, strict=True)] for n, u in (("bare", bare), ("styled", styled))}
    print(json.dumps({**whole, "cells": count * step}))


if __name__ == "__main__":
    main(*sys.argv[1:])
