"""A small made-up portfolio that is run night after night: round posts at odd sites, square ones at even sites."""

from __future__ import annotations

import csv
import io
import os
import subprocess
import sys
import zipfile
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

import xlsxwriter
from click.testing import CliRunner

from schemas.catalogue import CATALOGUE
from schemas.survey import SURVEY

PROGRAM = Path(sys.executable).parent / "postquote"
DATE = "2026-03-02"

Row = tuple[Any, ...]


def tables() -> dict[str, list[Row]]:
    """A catalogue: RM-1 goes on round posts, SQ-1 on square ones; RM-2 and RG-2 are options, what ends in 9 is on no quote."""
    ft10 = (8.5, 10, 0, None, 14, 36, 72, 190)
    return {
        "Mounts": [
            ("RM-1", "Mount for round posts", "round", 3.4, 3.6, "u-bolt", "fixed", *ft10, 60, 300, "active"),
            ("RM-2", "Another for round posts", "round", 3.4, 3.6, "band", "fixed", *ft10, 60, 340, "active"),
            ("RM-9", "Mount for thick posts", "round", 8.0, 8.2, "band", "fixed", *ft10, 60, 400, "active"),
            ("SQ-1", "Mount for square posts", "square", 3.9, 4.1, "u-bolt", "fixed", *ft10, 64, 320, "active"),
        ],
        "Boards": [
            ("BD-1", "Board", "rectangular", 54, 36, 60, "steel", "steel", "A", 200, "active"),
            ("BD-2", "Wide board", "rectangular", 60, 36, 66, "steel", "steel", "A", 220, "active"),
            ("BD-9", "Board for thick posts", "rectangular", 60, 36, 66, "steel", "steel", "A", 260, "active"),
        ],
        "Rings": [
            ("RG-1", "Ring", "fixed", "A", 14, 80, "active"),
            ("RG-2", "Ring that gives way", "breakaway", "A", 16, 95, "active"),
            ("RG-9", "Ring of another pattern", "fixed", "Z", 14, 10, "active"),
        ],
        "Pairings": [("RM-1", "BD-1"), ("RM-2", "BD-1"), ("RM-9", "BD-9"), ("SQ-1", "BD-2")],
        "Extensions": [
            ("XR-1", "Sleeve", "round", 3.4, 3.6, "sleeve", 12, 10, 3.5, 26, None, None, 4000, 18, 90, "active"),
        ],
        "Services": [("SV-1", "Mounting", "per post", 180), ("SV-2", "Journey", "per site", 120)],
        "Price breaks": [("RM-1", 40, 290)],
        "Freight": [(200, 90), (600, 180), (None, 320)],
        "Customers": [("North District", 10, "no", ""), ("South District", 0, "yes", "")],
        "Policy": [("currency", "EUR", "", ""), ("tax_rate", 0.1, "", "")],
    }


def changed(made: dict[str, list[Row]], table: str, code: str, **cells: Any) -> dict[str, list[Row]]:
    """The catalogue with some cells of one row changed."""
    names = next(t for t in CATALOGUE if t.name == table).names
    rows = [tuple(cells.get(n, v) for n, v in zip(names, row, strict=True)) if row[0] == code else row for row in made[table]]
    assert rows != made[table]
    return made | {table: rows}


def write_catalogue(path: Path, made: Mapping[str, Sequence[Row]]) -> Path:
    book = xlsxwriter.Workbook(str(path))
    book.set_properties({"created": datetime(2026, 1, 1)})  # the same bytes each time
    for table in CATALOGUE:
        if table.name in made:
            sheet = book.add_worksheet(table.name)
            sheet.write_row(0, 0, [c.titled for c in table.columns])
            for i, row in enumerate(made[table.name], 1):
                sheet.write_row(i, 0, row)
    book.close()
    return path


def site(number: int, posts: int = 3) -> list[dict[str, Any]]:
    """Rows of one site."""
    shape, size = (("square", 4.0), ("round", 3.5))[number % 2]
    return [
        {
            "site_code": f"K-{number:02}",
            "site_name": f"Court {number}",
            "customer": ("North District", "South District", "")[number % 3],
            "site_kind": "park",
            "post_code": f"P{p}",
            "post_shape": shape,
            "post_size": size,
            "measured_with": "calipers",
            "wall": 0.25,
            "material": "steel",
            "post_height": 8.6 + 0.1 * p,
            "post_line": "straight",
            "post_base": "cast in",
            "old_fittings": "none",
            "condition": "sound",
        }
        for p in range(1, posts + 1)
    ]


def write_survey(path: Path, rows: Iterable[Mapping[str, Any]]) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    names = SURVEY.names
    text = io.StringIO()
    csv.writer(text).writerows([[c.titled for c in SURVEY.columns], *([r.get(n, "") for n in names] for r in rows)])
    path.write_text(text.getvalue())


@dataclass
class Nights:
    """A folder with surveys, a catalogue and what the runs made of them."""

    home: Path
    sites: dict[int, list[dict[str, Any]]] = field(default_factory=lambda: {n: site(n) for n in range(1, 7)})
    made: dict[str, list[Row]] = field(default_factory=tables)

    @property
    def out(self) -> Path:
        return self.home / "out"

    def write(self) -> None:
        """Surveys and catalogue as they now stand."""
        folder = self.home / "surveys"
        folder.mkdir(parents=True, exist_ok=True)
        for old in folder.glob("*.csv"):
            old.unlink()
        for n, rows in self.sites.items():
            write_survey(folder / f"court-{n:02}.csv", rows)
        write_catalogue(self.home / "catalogue.xlsx", self.made)

    def command(self, *more: str, date: str = DATE, out: Path | None = None) -> list[str]:
        where = [str(self.home / "surveys"), "--catalogue", str(self.home / "catalogue.xlsx"), "--out", str(out or self.out)]
        return [str(PROGRAM), "quote", *where, "--date", date, *(more or ("--jobs", "1"))]

    def run(self, *more: str, status: int = 0, date: str = DATE, **env: str) -> str:
        """Run the installed command; what it said on stderr."""
        self.write()
        done = subprocess.run(self.command(*more, date=date), capture_output=True, text=True, env={**os.environ, **env})
        assert done.returncode == status, done.stderr
        assert "Traceback" not in done.stderr
        return done.stderr

    def night(self, *more: str, status: int = 0, date: str = DATE) -> str:
        """The same in this process, which is sooner done."""
        from pipeline.cli import main

        self.write()
        done = CliRunner().invoke(main, self.command(*more, date=date)[1:])
        assert done.exit_code == status, done.output
        return done.stderr

    def table(self, name: str) -> list[dict[str, str]]:
        """Rows of a data file."""
        with (self.out / "data" / f"{name}.csv").open(newline="") as f:
            return list(csv.DictReader(f))

    def revisions(self) -> dict[str, int]:
        return {r["site_code"]: int(r["revision"]) for r in self.table("sites")}

    def risen(self) -> set[int]:
        """Numbers of the sites that stand at a revision above 1."""
        return {int(code[2:]) for code, revision in self.revisions().items() if revision > 1}

    def reasons(self) -> set[tuple[str, str, str, str, str]]:
        """Site, kind, item, was, now of each change."""
        return {(r["site_code"], r["kind"], r["item"], r["was"], r["now"]) for r in self.table("changes")}

    def workbook(self, code: str, revision: int) -> Path:
        return self.out / "sites" / code / f"{code}-r{revision}.xlsx"


def results(out: Path) -> dict[str, bytes]:
    """Every result of a folder, whole: workbooks, data files, run.json; neither ledger nor lock, which hold times."""
    found = {p.relative_to(out).as_posix(): p for p in sorted(out.rglob("*")) if p.is_file()}
    return {name: p.read_bytes() for name, p in found.items() if name != "ledger.sqlite" and not name.startswith(".lock")}


def stamps(out: Path) -> dict[str, tuple[int, int]]:
    """When each result was written, and its place on the disk."""
    return {name: ((out / name).stat().st_mtime_ns, (out / name).stat().st_ino) for name in results(out)}


def whole(name: str, data: bytes) -> bool:
    """Whether a result can be opened from end to end."""
    if name.endswith(".xlsx"):
        with zipfile.ZipFile(io.BytesIO(data)) as z:
            return z.testzip() is None
    if name.endswith(".csv"):
        rows = list(csv.reader(io.StringIO(data.decode()), strict=True))
        return data.endswith(b"\n") and len({len(r) for r in rows}) == 1
    return True


def texts(path: Path, sheet: str) -> list[str]:
    """Every text of a sheet."""
    import openpyxl

    book = openpyxl.load_workbook(path)
    return [str(v) for row in book[sheet].iter_rows(values_only=True) for v in row if v is not None]
