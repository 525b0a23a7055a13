"""Surveys taken in: each file read and checked in a child process, known ones not at all."""

from __future__ import annotations

from base64 import b64decode, b64encode
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass
from queue import SimpleQueue
from typing import Any

from pipeline.intake.across import RowKey, row_key
from pipeline.intake.model import FileResult, Query, UnreadableFileError
from pipeline.intake.read import Found, Sandbox
from pipeline.ledger.pack import pack, unpack


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


def take_path(path: str, file: str, policy: Mapping[str, Any]) -> Taken:
    """Read and check the file at `path`; runs in the child."""
    from pipeline.intake.check import check_path

    return _taken(check_path(path, file, policy))


def _taken(r: FileResult) -> Taken:
    keys = tuple(row_key(row, i) for i, row in enumerate(r.rows))
    return Taken(r.file, r.format, keys, tuple(pack(row.as_dict()) for row in r.rows), r.queries, r.notes)


def refused(file: str, error: UnreadableFileError) -> Taken:
    """A file that cannot be read: one query, and no rows."""
    return Taken(file, "", (), (), (Query(file, "", "", "UNREADABLE_FILE", error.reason, error.remedy, False),))


def take_in(found: Sequence[Found], policy: Mapping[str, Any], jobs: int, tell: Callable[[int], None]) -> Iterator[Taken]:
    """Each file taken in, in the order given, `jobs` at a time; a file that kills its reader is refused in plain words."""
    with ExitStack() as stack:
        boxes: SimpleQueue[Sandbox] = SimpleQueue()
        for _ in range(max(1, min(jobs, len(found)))):
            boxes.put(stack.enter_context(Sandbox("pipeline.intake.take:take_path")))
        pool = stack.enter_context(ThreadPoolExecutor(max(1, min(jobs, len(found)))))
        for done, taken in enumerate(pool.map(lambda f: _one(f, policy, boxes), found), 1):
            tell(done)
            yield taken


def _one(found: Found, policy: Mapping[str, Any], boxes: SimpleQueue[Sandbox]) -> Taken:
    if found.unreadable is not None:
        return refused(found.name, found.unreadable)
    box = boxes.get()
    try:
        return box.run(found.path, found.name, policy)
    except UnreadableFileError as error:
        return refused(found.name, error)
    finally:
        boxes.put(box)
