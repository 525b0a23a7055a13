"""One survey file taken in: its rows as read, its queries, and how both lie in the ledger."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from pipeline.intake.field_sheet import FieldSheet
from pipeline.intake.query import Query
from pipeline.intake.returned import Identity
from pipeline.intake.survey.fault import RowRead
from pipeline.ledger.pack import pack, unpack
from pipeline.reading.book import UnreadableFileError


@dataclass(frozen=True, slots=True)
class Taken:
    """One file: every row with each of its cells read by itself, and what must be asked about the file's layout.

    `content` is the SHA-256 of the bytes that were read, '' where none could be; `returned` what it answers to where it is
    a marked copy that came back; `lasting` is False where an accident kept it from being read, so that the next run tries again.
    """

    file: str
    format: str
    rows: tuple[RowRead, ...]
    queries: tuple[Query, ...]
    notes: tuple[str, ...] = ()
    content: str = ""
    returned: Identity | None = None
    lasting: bool = True
    field: FieldSheet | None = None  # a field sheet that came back

    def packed(self) -> bytes:
        """As it lies in the ledger."""
        rows, queries = [r.as_dict() for r in self.rows], [asdict(q) for q in self.queries]
        returned = asdict(self.returned) if self.returned else None
        plain = {"file": self.file, "format": self.format, "rows": rows, "notes": self.notes, "queries": queries}
        field = self.field.as_dict() if self.field else None
        return pack(plain | {"content": self.content, "returned": returned, "field": field})

    @staticmethod
    def unpacked(blob: bytes) -> Taken:
        """The inverse of `packed`."""
        plain = unpack(blob)
        rows, queries = tuple(RowRead.from_dict(r) for r in plain["rows"]), tuple(Query(**q) for q in plain["queries"])
        returned = Identity(**plain["returned"]) if plain["returned"] else None
        field = FieldSheet.from_dict(plain["field"]) if plain["field"] else None
        notes = tuple(plain["notes"])
        return Taken(plain["file"], plain["format"], rows, queries, notes, plain["content"], returned, field=field)


def refused(file: str, error: UnreadableFileError) -> Taken:
    """A file that cannot be read: one query, and no rows."""
    return Taken(
        file, "", (), (Query(file, "", "", "UNREADABLE_FILE", error.reason, error.remedy, False),), lasting=error.lasting
    )
