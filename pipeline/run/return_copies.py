"""Marked copies of the surveys about which there are queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import asdict
from queue import SimpleQueue

from pipeline.intake.query import Query
from pipeline.marking import marked_copy, returned_name
from pipeline.output.shelf import Shelf
from pipeline.reading import Found, Sandbox
from pipeline.reading.book import UnreadableFileError
from pipeline.run.read_surveys import SurveysRead
from pipeline.run.request import Prints, Progress, sha

_Work = tuple[Found, str, str, list[Query]]


def return_files(
    shelf: Shelf, files: SurveysRead, prints: Prints, queries: Sequence[Query], jobs: int, progress: Progress
) -> None:
    """A marked copy for each file with a query; one that stands and would say the same is left as it is."""
    work: list[_Work] = []
    for found, path, asked in _asked(files.found, queries):
        recipe = sha([prints.surveys[found.name], prints.program, [asdict(q) for q in asked]])
        if not shelf.stands(path, recipe):
            work.append((found, path, recipe, asked))
    for path, recipe, data in _marked(work, jobs, progress):
        shelf.put(path, data, recipe)


def marked_files(found: Sequence[Found], queries: Sequence[Query], jobs: int, progress: Progress) -> Iterator[tuple[str, bytes]]:
    """Path and bytes of the marked copy of each file with a query."""
    work = [(f, path, "", asked) for f, path, asked in _asked(found, queries)]
    yield from ((path, data) for path, _, data in _marked(work, jobs, progress))


def _asked(found: Sequence[Found], queries: Sequence[Query]) -> Iterator[tuple[Found, str, list[Query]]]:
    """Each file with a query, where its marked copy goes, and its queries."""
    by_file: dict[str, list[Query]] = defaultdict(list)
    for q in queries:
        by_file[q.file].append(q)
    names = returned_name([f.name for f in found])
    yield from ((f, names[f.name], by_file[f.name]) for f in found if f.name in by_file)


def _marked(work: Sequence[_Work], jobs: int, progress: Progress) -> Iterator[tuple[str, str, bytes]]:
    if not work:
        return
    progress.stage("Marking surveys", len(work))
    with ExitStack() as stack:
        boxes: SimpleQueue[Sandbox] = SimpleQueue()
        for _ in range(max(1, min(jobs, len(work)))):
            boxes.put(stack.enter_context(Sandbox("pipeline.marking:marked_copy")))
        pool = stack.enter_context(ThreadPoolExecutor(max(1, min(jobs, len(work)))))
        for done, marked in enumerate(pool.map(lambda w: (w[1], w[2], _mark(w[0], w[3], boxes)), work), 1):
            yield marked
            progress.step(done)


def _mark(found: Found, queries: Sequence[Query], boxes: SimpleQueue[Sandbox]) -> bytes:
    """One marked copy: of the sender's own file where that goes well, else of its cells, else only the list."""
    if found.reason or any(q.code == "UNREADABLE_FILE" for q in queries):
        return marked_copy("", found.name, None, queries, own=False)
    box = boxes.get()
    try:
        for own in (True, False):
            try:
                return box.run(found.path, found.name, None, list(queries), own)
            except UnreadableFileError:
                continue
    finally:
        boxes.put(box)
    return marked_copy("", found.name, None, queries, own=False)
