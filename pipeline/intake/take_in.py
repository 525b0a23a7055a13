"""Surveys taken in: each file read and checked in a child process, known ones not at all."""

from __future__ import annotations

from base64 import b64decode, b64encode
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass
from typing import Any

from pipeline.intake.query import Query
from pipeline.intake.readers import Readers
from pipeline.intake.survey.across import RowKey
from pipeline.ledger.pack import pack, unpack
from pipeline.reading import Found
from pipeline.reading.book import UnreadableFileError


@dataclass(frozen=True)
class Taken:
    """One file taken in: what settling needs of each row, the rows packed, the queries."""

    file: str
    format: str
    keys: tuple[RowKey, ...]
    rows: tuple[bytes, ...]
    queries: tuple[Query, ...]
    notes: tuple[str, ...] = ()

    def packed(self) -> bytes:
        """As it lies in the ledger."""
        keys = [{**_plain(k), "says": k.says.hex()} for k in self.keys]
        rows = [b64encode(row).decode() for row in self.rows]
        plain = {"file": self.file, "format": self.format, "keys": keys, "rows": rows, "notes": self.notes}
        return pack({**plain, "queries": [_plain(q) for q in self.queries]})

    @staticmethod
    def unpacked(blob: bytes) -> Taken:
        """The inverse of `packed`."""
        plain = unpack(blob)
        return Taken(
            plain["file"],
            plain["format"],
            tuple(_key(k) for k in plain["keys"]),
            tuple(b64decode(row) for row in plain["rows"]),
            tuple(Query(**q) for q in plain["queries"]),
            tuple(plain["notes"]),
        )


def _plain(made: RowKey | Query) -> dict[str, Any]:
    return {name: getattr(made, name) for name in made.__slots__}


def _key(k: dict[str, Any]) -> RowKey:
    tuples = {name: tuple(k[name]) for name in ("facts", "fact_cells")}
    return RowKey(**{**k, **tuples, "says": bytes.fromhex(k["says"])})


def refused(file: str, error: UnreadableFileError) -> Taken:
    """A file that cannot be read: one query, and no rows."""
    return Taken(file, "", (), (), (Query(file, "", "", "UNREADABLE_FILE", error.reason, error.remedy, False),))


def take_in(
    found: Sequence[Found], policy: Mapping[str, Any], jobs: int, tell: Callable[[int], None], readers: Readers | None = None
) -> Iterator[Taken]:
    """Each file taken in, in the order given, `jobs` at a time; a file that kills its reader is refused in plain words.

    `readers` are left open; without them they are made for the call.
    """
    with ExitStack() as stack:
        own = readers or stack.enter_context(Readers(max(1, min(jobs, len(found)))))
        pool = stack.enter_context(ThreadPoolExecutor(max(1, min(jobs, len(own), len(found)))))
        for done, taken in enumerate(pool.map(lambda f: _one(f, policy, own), found), 1):
            tell(done)
            yield taken


def _one(found: Found, policy: Mapping[str, Any], readers: Readers) -> Taken:
    if found.unreadable is not None:
        return refused(found.name, found.unreadable)
    with readers.one() as box:
        try:
            taken: Taken = box.run(found.path, found.name, policy)
        except UnreadableFileError as error:
            return refused(found.name, error)
    return taken
