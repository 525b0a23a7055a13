"""A made-up portfolio of any size for the benchmark: a catalogue, and surveys in one file or in one a site."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from pathlib import Path

import xlsxwriter

from schemas.catalogue import CATALOGUE
from schemas.survey import SURVEY

SIZES = (2.375, 3.5, 4.0, 4.5, 5.5625)
HEADINGS = tuple(c.titled for c in SURVEY.columns)


def write_catalogue(path: Path, mounts: int, boards: int, rings: int, price_of_first: float = 300.0) -> None:
    """A catalogue in which each mount takes a third of the boards."""
    rng = random.Random(7)
    rows: dict[str, list[Sequence[object]]] = {
        "Mounts": [_mount(i, rng, price_of_first) for i in range(mounts)],
        "Boards": [_board(i, rng) for i in range(boards)],
        "Rings": [
            (f"R-{i:02}", f"Ring {i}", ("fixed", "breakaway")[i % 2], "A", 14 + i, 60 + 11 * i, "active") for i in range(rings)
        ],
        "Pairings": [(f"M-{m:02}", f"B-{b:02}") for m in range(mounts) for b in range(boards) if (m + b) % 3 == 0],
        "Extensions": [_extension(i) for i in range(12)],
        "Services": [
            ("S-1", "Mounting", "per post", 180),
            ("S-2", "Fitting an extension", "per extension", 60),
            ("S-3", "Stripping", "per stripped post", 45),
            ("S-4", "Journey", "per site", 120),
        ],
        "Price breaks": [("B-00", 4, 190)],
        "Freight": [(200, 90), (600, 180), (None, 320)],
        "Policy": [("currency", "EUR", "", ""), ("tax_rate", 0.2, "", "")],
    }
    book = xlsxwriter.Workbook(str(path))
    for table in CATALOGUE:
        if table.name in rows:
            sheet = book.add_worksheet(table.name)
            sheet.write_row(0, 0, [c.titled for c in table.columns])
            for i, row in enumerate(rows[table.name], 1):
                sheet.write_row(i, 0, row)
    book.close()


def _mount(i: int, rng: random.Random, price_of_first: float) -> Sequence[object]:
    size = SIZES[i % len(SIZES)]
    lifts = i % 3 != 0
    kind = ("fixed", "stepped", "continuous")[i % 3]
    return (
        f"M-{i:02}", f"Mount {i}", "square" if i % 7 == 6 else "round", size - 0.1, size + 0.1, "u-bolt", kind,
        8.5 if lifts else 10.5, 10, 2.5 if lifts else 0, 6 if kind == "stepped" else 0, 14 + i % 5, 30 + i % 9, 72, 190,
        60 + i, price_of_first if i == 0 else 250 + rng.randrange(400), "active",
    )  # fmt: skip


def _board(i: int, rng: random.Random) -> Sequence[object]:
    return (
        f"B-{i:02}",
        f"Board {i}",
        "rectangular",
        44 + i % 28,
        30 + i % 12,
        40 + 2 * i,
        "steel",
        "steel",
        "A",
        150 + rng.randrange(500),
        "active",
    )


def _extension(i: int) -> Sequence[object]:
    size = SIZES[i % len(SIZES)]
    added = (6, 12, 24)[i % 3]
    return (
        f"X-{i:02}",
        f"Extension {i}",
        "round",
        size - 0.1,
        size + 0.1,
        "sleeve",
        added,
        10,
        size,
        added + 14,
        None,
        None,
        4000,
        18,
        90 + i,
        "active",
    )


def rows_of(site: int, posts: int) -> Iterator[dict[str, object]]:
    """Rows of one site; every fifth post is unlike any other."""
    rng = random.Random(site)
    for p in range(posts):
        size = SIZES[rng.randrange(len(SIZES))]
        yield {
            "site_code": f"G-{site:04}",
            "site_name": f"Ground {site}",
            "customer": f"District {site % 9}",
            "site_kind": ("school", "park", "league")[site % 3],
            "post_code": f"P{p + 1}",
            "post_shape": "round",
            "post_size": size,
            "measured_with": "calipers",
            "wall": 0.216,
            "material": "steel",
            "post_height": round(8 + rng.random() * 3, 2) if rng.random() < 0.5 else "8' 6\"",
            "post_line": "straight",
            "post_base": "cast in",
            "old_fittings": ("none", "removable")[rng.randrange(2)],
            "condition": "sound",
            "ring_heights": "10; 8",
        }


def write_surveys(folder: Path, sites: int, posts: int, one_file: bool = False) -> None:
    """Surveys with every heading, one file a site or all in one."""
    folder.mkdir(parents=True, exist_ok=True)
    names = SURVEY.names
    if one_file:
        _write(folder / "all.xlsx", [r for s in range(sites) for r in rows_of(s, posts)], names)
        return
    for s in range(sites):
        _write(folder / f"ground-{s:04}.xlsx", list(rows_of(s, posts)), names)


def change_surveys(folder: Path, sites: int, posts: int) -> None:
    """The first post of so many sites is measured again, and is taller."""
    for s in range(sites):
        rows = list(rows_of(s, posts))
        rows[0]["post_height"] = 11.5
        _write(folder / f"ground-{s:04}.xlsx", rows, SURVEY.names)


def _write(path: Path, rows: Sequence[dict[str, object]], names: Sequence[str]) -> None:
    book = xlsxwriter.Workbook(str(path))
    sheet = book.add_worksheet("Survey")
    sheet.write_row(0, 0, HEADINGS)
    for i, row in enumerate(rows, 1):
        sheet.write_row(i, 0, [row.get(n) for n in names])
    book.close()
