"""The whole story: from surveys and a catalogue to workbooks, stage by stage. Nothing is computed here."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import timedelta
from importlib import import_module
from typing import TYPE_CHECKING, Any

from pipeline.errors import RefusedError
from pipeline.intake.readers import Readers
from pipeline.ledger.store import Ledger
from pipeline.output.folder import file_digest
from pipeline.reading import Found, NoSurveyError, find_surveys
from pipeline.run.outcome import Outcome
from pipeline.run.output_state import LEDGER, expected, look, open_folder
from pipeline.run.request import Prints, Progress, Request, fingerprints, sha
from pipeline.run.unchanged import unchanged

if TYPE_CHECKING:
    from concurrent.futures import Future

    from pipeline.intake.catalogue import CatalogueRead


def quote(request: Request, progress: Progress) -> Outcome:
    """Quote every survey into `request.out`.

    A bad catalogue raises CatalogueFaults before anything is written. A run for which nothing has
    changed finds that out from fingerprints, before anything heavy is loaded.
    """
    if os.path.realpath(request.out) in map(os.path.realpath, request.surveys):
        raise NoSurveyError(
            f"{request.out} holds the surveys: results there would be read as surveys. Give --out another folder."
        )
    found = find_surveys(request.surveys, without=[str(request.out)])
    if not found:
        raise NoSurveyError(f"There is no survey in {', '.join(request.surveys)}: the folder is empty.")
    prints = fingerprints(found, request.catalogue)
    first = not (request.out / LEDGER).exists()
    with Readers(min(request.jobs, len(found))) as readers:
        if first:
            readers.start(len(readers))  # they load meanwhile
        catalogue = _read_first(request, prints) if first else None
        with open_folder(request) as ledger:
            prints = replace(prints, marks=sha([vars(mark) for mark in ledger.marks()]))
            return unchanged(ledger, request, prints) or _quote(request, found, prints, catalogue, readers, ledger, progress)


def _quote(
    request: Request,
    found: Sequence[Found],
    prints: Prints,
    catalogue: CatalogueRead | None,
    readers: Readers,
    ledger: Ledger,
    progress: Progress,
) -> Outcome:
    from pipeline.intake.dictionary import dictionary
    from pipeline.run.known_catalogue import kept_catalogue
    from pipeline.run.read_surveys import read_surveys

    catalogue = kept_catalogue(ledger, prints) or catalogue or _read_first(request, prints)
    with _meanwhile(look, request.out, expected(ledger)) as on_disk:
        surveys = read_surveys(request, found, prints, dictionary(catalogue.tables), ledger, readers, progress)

    from pipeline.run.finish import finish
    from pipeline.run.folders import with_folders
    from pipeline.run.open_run import open_run
    from pipeline.run.quote_sites import quote_all
    from pipeline.site.tasks import gather

    valid_until = request.date + timedelta(days=int(catalogue.policy["quote_valid_days"]))
    dates = request.date.isoformat(), valid_until.isoformat()
    gathered = gather(surveys.taken, catalogue.policy, *dates, ledger.marked())
    run = open_run(request, surveys.prints, catalogue, ledger, on_disk.result())
    surveys = surveys.without_rows()
    quoted = quote_all(run, with_folders(gathered.tasks, run), surveys.refused, ledger, progress)
    gathered = replace(gathered, tasks=())  # their rows are done with; those of thousands of sites would lie there to the end
    return finish(run, gathered, surveys, quoted, ledger, progress)


def _read_first(request: Request, prints: Prints) -> CatalogueRead:
    """The catalogue from its file; a bad one, or a cluster that cannot be reached, is refused before anything is written."""
    from pipeline.intake.catalogue.apart import read_apart

    if request.cluster:
        from pipeline.executors.cluster import require

        require(request.cluster)
    read = read_apart(request.catalogue)
    if file_digest(request.catalogue) != prints.catalogue:
        raise RefusedError("The catalogue was changed while it was read. Run again when it has been saved.")
    return read


@contextmanager
def _meanwhile(work: Callable[..., Any], *args: Any) -> Iterator[Future[Any]]:
    """While the readers, other processes, are at work: what is heavy is loaded, and `work` is done."""
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(1) as thread:
        thread.submit(import_module, "schemas.survey_model")
        thread.submit(import_module, "pipeline.run.finish")
        yield thread.submit(work, *args)
