"""Sentences about how a sheet was read: what was passed over, and what is no post."""

from __future__ import annotations

from dataclasses import dataclass, field

from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.record import Record
from pipeline.intake.layout.row_kinds import Kind
from pipeline.intake.layout.tables import Table
from pipeline.reading.book import Sheet
from schemas.survey import SURVEY

_NAMED = 5  # rows that a sentence names


@dataclass
class RowCounts:
    """Rows of a table by what they are, in words."""

    rows: dict[Kind, list[str]] = field(default_factory=dict)
    total: int = 0  # the total after which nothing is read
    posts: int = 0

    def count(self, kind: Kind, number: int, cells: Row) -> None:
        """Note what a row is; a total ends what is read, anything that is read begins it again."""
        self.total = number if kind == "total" else 0
        shown = f"{number} (“{_shown(cells)}”)" if kind in ("section", "remark", "place", "title", "doubtful") else str(number)
        self.rows.setdefault(kind, []).append(shown)

    def of(self, *kinds: Kind) -> list[str]:
        """The rows of some kinds, in order."""
        listed = [r for k in kinds for r in self.rows.get(k, ())]
        return sorted(listed, key=lambda r: int(r.split(" ", 1)[0]))


def row_notes(table: Table, counts: RowCounts) -> list[str]:
    """What is said about the rows of a table that are no posts."""
    found = [
        f"Row {counts.total} is read as a total; what follows it is not read as posts." if counts.total else "",
        _several([n for n in counts.of("total") if n != str(counts.total)], "read as totals, not as posts"),
        _several(counts.of("partial"), "read as subtotals, not as posts"),
        _several(counts.of("remark", "place"), "read as titles or remarks, not as posts"),
        _several(counts.of("section"), "that name the site of the rows below them"),
        _several(counts.of("title"), "read as titles of what stands below them"),
        _several(counts.of("doubtful"), "that may name a site, which is asked"),
        _several(counts.of("block"), "that name a site and no post: they hold for the rows below them"),
        _several(counts.of("elsewhere"), "not read as posts: nothing stands there in a known column"),
    ]
    where = _where(table)
    return [where + s for s in found if s]


def column_notes(table: Table, counts: RowCounts) -> list[str]:
    """What is said about the columns of a table."""
    where = _where(table)
    notes = [f"{where}the column “{line(h)}” is carried through and not read{_since(by)}." for h, by in table.passed_over]
    notes += [f"{where}“{h}” is read as “{SURVEY.column(name).heading}”: its cells say so." for h, name in table.by_cells]
    unknown = [f"“{line(h)}”" for h in table.extra.values() if h and h not in {p for p, _ in table.passed_over}]
    if unknown:
        notes.append(f"{where}columns carried through and not read: {', '.join(unknown)}.")
    notes += [f"{where}“{line(h)}” has another unit in the row below: neither is taken." for h in table.clashing_units]
    if not counts.posts:
        notes.append(f"{where}no post stands below the headings in row {table.row}.")
    return notes


def hidden(sheet: Sheet, records: list[Record]) -> list[str]:
    """Sentences about what was read though it is hidden."""
    notes = [f"The sheet “{sheet.name}” is hidden; it was read."] if sheet.hidden else []
    covered = set(sheet.hidden_rows)
    read = dict.fromkeys(str(r.row) for r in records if r.sheet == sheet.name and r.row in covered)
    if read:
        notes.append(f"Sheet “{sheet.name}”: hidden rows were read: {', '.join(read)}.")
    return notes


def _where(table: Table) -> str:
    return f"Sheet “{table.sheet}”: " if table.sheet else ""


def _since(by: str) -> str:
    return f", since “{line(by)}” stands beside it" if by else ", since it can mean several things"


def _several(rows: list[str], what: str) -> str:
    """One sentence about some rows, the first few of them named."""
    if not rows:
        return ""
    more = f" and {len(rows) - _NAMED} more" if len(rows) > _NAMED else ""
    return f"Rows {what}: {', '.join(rows[:_NAMED])}{more}."


def _shown(cells: Row) -> str:
    text = line(str(next(iter(cells.values())).value))
    return text if len(text) <= 40 else text[:39] + "…"
