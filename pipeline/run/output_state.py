"""The output folder of a run: held, with its ledger open; and what stands in it when the run begins."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from pathlib import Path

from pipeline.ledger.schema import LedgerNotKeptError, not_kept
from pipeline.ledger.store import Ledger
from pipeline.output.folder import NotWrittenError, file_digest, in_words, remove_parts, require_plain
from pipeline.output.lock import hold
from pipeline.run.request import Request

LEDGER = "ledger.sqlite"


@contextmanager
def open_folder(request: Request) -> Iterator[Ledger]:
    """The output folder, held for this run, with its ledger open."""
    try:
        request.out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise NotWrittenError(f"{request.out} could not be made: {in_words(error)}.") from error
    with hold(request.out, request.now), _ledger(request.out / LEDGER) as ledger:
        last = ledger.last_finished()
        begun = ledger.unfinished(last.run + 1 if last else 1).values()
        remove_parts(request.out, sorted({*begun, *(path for path, _ in ledger.pending())}))
        yield ledger


@contextmanager
def _ledger(path: Path) -> Iterator[Ledger]:
    """The ledger, open; what keeps it from being written is said as of any other file."""
    for place in (path, path.with_name(f"{path.name}-journal")):
        require_plain(place)
    try:
        with closing(Ledger(path)) as ledger:
            yield ledger
    except LedgerNotKeptError as error:
        raise NotWrittenError(str(error)) from error
    except sqlite3.Error as error:
        refused = not_kept(path, error)
        raise (NotWrittenError(str(refused)) if isinstance(refused, LedgerNotKeptError) else refused) from error


def expected(ledger: Ledger) -> list[str]:
    """Paths of the newest workbooks that the last finished run left, and of those that something was said of."""
    last = ledger.last_finished()
    newest = [r.workbook for r in ledger.latest(last.run).values()] if last else []
    return [*newest, *(ledger.revision(mark.site, mark.revision).workbook for mark in ledger.marks())]


def look(folder: Path, paths: Sequence[str]) -> Mapping[str, str]:
    """Path -> hash of what stands there, '' where nothing does."""
    return {path: file_digest(folder / path) for path in paths}
