"""The whole story: from surveys and a catalogue to workbooks, stage by stage. Nothing is computed here."""

from __future__ import annotations

import gc
import sqlite3
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, closing, contextmanager, nullcontext
from datetime import timedelta
from functools import partial
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from pipeline.intake.readers import Readers
from pipeline.ledger.schema import LedgerNotKeptError, not_kept
from pipeline.ledger.store import Ledger
from pipeline.output.folder import NotWrittenError, in_words, remove_parts
from pipeline.output.lock import hold
from pipeline.reading import Found, NoSurveyError, find_surveys
from pipeline.run.outcome import Outcome
from pipeline.run.request import Prints, Request, Tell, fingerprints
from pipeline.run.unchanged import said_before

if TYPE_CHECKING:
    from concurrent.futures import Future

    from pipeline.intake.catalogue import CatalogueRead

LEDGER = "ledger.sqlite"


def quote(request: Request, tell: Tell) -> Outcome:
    """Quote every survey into `request.out`.

    A bad catalogue raises CatalogueFaults before anything is written. A run for which nothing has
    changed finds that out from fingerprints, before anything heavy is loaded.
    """
    found = find_surveys(request.surveys, without=[str(request.out)])
    if not found:
        raise NoSurveyError(f"There is no survey in {', '.join(request.surveys)}: the folder is empty.")
    prints = fingerprints(found, request.catalogue)
    with Readers(min(request.jobs, len(found))) as readers:
        first = not (request.out / LEDGER).exists()
        if first:
            readers.start(len(readers))  # they load meanwhile
        catalogue = _read(request) if first else None  # refused before the folder is made
        if first:
            _require_cluster(request)
        with _folder(request) as ledger:
            same = said_before(ledger, request, prints)
            with _no_look_for_garbage():
                return same or _quote(request, found, prints, catalogue, readers, ledger, tell)


def _quote(
    request: Request,
    found: Sequence[Found],
    prints: Prints,
    catalogue: CatalogueRead | None,
    readers: Readers,
    ledger: Ledger,
    tell: Tell,
) -> Outcome:
    from pipeline.run.known_catalogue import kept_catalogue
    from pipeline.run.output_state import expected, look
    from pipeline.run.read_surveys import take_all

    if catalogue is None:
        _require_cluster(request)
    kept = kept_catalogue(ledger, prints)
    catalogue = kept or catalogue or _read(request)
    valid_until = request.date + timedelta(days=int(catalogue.policy["quote_valid_days"]))
    with _frames_checked(None if kept else catalogue, request.jobs) as frames_checked:
        with _meanwhile(look, request.out, expected(ledger)) as standing:
            surveys = take_all(found, prints, ledger, readers, tell)
        threading.Thread(target=readers.close, daemon=True).start()  # their end is waited for at ours
        frames_checked()

    from pipeline.run.finish import close
    from pipeline.run.open_run import open_run
    from pipeline.run.quote_sites import quote_all
    from pipeline.site.tasks import gather

    gathered = gather(surveys.taken, catalogue.policy, request.date.isoformat(), valid_until.isoformat())
    run = open_run(request, prints, catalogue, ledger, standing.result())
    quoted = quote_all(run, gathered, ledger, tell)
    return close(run, gathered, surveys, quoted, ledger, tell)


def _frames_checked(catalogue: CatalogueRead | None, jobs: int) -> AbstractContextManager[Callable[[], Any]]:
    """Holds the catalogue's frames to their models, beside the run where it has more than one job; nothing for a known one."""
    if catalogue is None:
        return nullcontext(lambda: None)
    from pipeline.executors.processes import beside
    from pipeline.run.frame_checks import check_frames

    return beside(check_frames, catalogue.tables) if jobs > 1 else nullcontext(partial(check_frames, catalogue.tables))


@contextmanager
def _no_look_for_garbage() -> Iterator[None]:
    """Nothing of a run is garbage before its end: looking for it again and again takes a tenth of a re-run."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


@contextmanager
def _meanwhile(work: Callable[..., Any], *args: Any) -> Iterator[Future[Any]]:
    """While the readers, other processes, are at work: what is heavy is loaded, and `work` is done."""
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(1) as thread:
        thread.submit(import_module, "schemas.frames")
        thread.submit(import_module, "pipeline.run.finish")
        yield thread.submit(work, *args)


def _require_cluster(request: Request) -> None:
    """A cluster that cannot be reached is refused before anything is written."""
    if request.cluster:
        from pipeline.executors.cluster import require

        require(request.cluster)


def _read(request: Request) -> CatalogueRead:
    from pipeline.intake.catalogue import read_catalogue

    return read_catalogue(request.catalogue)


@contextmanager
def _folder(request: Request) -> Iterator[Ledger]:
    """The output folder, held for this run, with its ledger open."""
    try:
        request.out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise NotWrittenError(f"{request.out} could not be made: {in_words(error)}.") from error
    with hold(request.out, request.now):
        remove_parts(request.out)
        with _ledger(request.out / LEDGER) as ledger:
            yield ledger


@contextmanager
def _ledger(path: Path) -> Iterator[Ledger]:
    """The ledger, open; what keeps it from being written is said as of any other file."""
    try:
        with closing(Ledger(path)) as ledger:
            yield ledger
    except LedgerNotKeptError as error:
        raise NotWrittenError(str(error)) from error
    except sqlite3.Error as error:
        raise NotWrittenError(str(not_kept(path, error))) from error
