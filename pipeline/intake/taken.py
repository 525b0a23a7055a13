"""One survey file taken in: its rows as read, its queries, and how both lie in the ledger."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from pipeline.intake.query import Query
from pipeline.intake.survey.fault import RowRead
from pipeline.ledger.pack import pack, unpack
from pipeline.reading.book import UnreadableFileError


@dataclass(frozen=True, slots=True)
class Taken:
    """One file: every row with each of its cells read by itself, and what must be asked about the file's layout."""

    file: str
    format: str
    rows: tuple[RowRead, ...]
    queries: tuple[Query, ...]
    notes: tuple[str, ...] = ()

    def packed(self) -> bytes:
        """As it lies in the ledger."""
        rows, queries = [r.as_dict() for r in self.rows], [asdict(q) for q in self.queries]
        return pack({"file": self.file, "format": self.format, "rows": rows, "notes": self.notes, "queries": queries})

    @staticmethod
    def unpacked(blob: bytes) -> Taken:
        """The inverse of `packed`."""
        plain = unpack(blob)
        rows, queries = tuple(RowRead.from_dict(r) for r in plain["rows"]), tuple(Query(**q) for q in plain["queries"])
        return Taken(plain["file"], plain["format"], rows, queries, tuple(plain["notes"]))


def refused(file: str, error: UnreadableFileError) -> Taken:
    """A file that cannot be read: one query, and no rows."""
    return Taken(file, "", (), (Query(file, "", "", "UNREADABLE_FILE", error.reason, error.remedy, False),))
