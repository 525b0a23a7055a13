"""Marked copies of the surveys about which there are queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import asdict, dataclass, replace
from queue import SimpleQueue

from pipeline.intake.query import Query
from pipeline.intake.returned import Identity, first_round, next_round
from pipeline.intake.taken import Taken
from pipeline.marking import marked_copy, names_of_copies
from pipeline.output.shelf import Shelf
from pipeline.reading import Found, Sandbox
from pipeline.reading.book import UnreadableFileError
from pipeline.run.read_surveys import SurveysRead
from pipeline.run.request import Prints, Progress, sha


@dataclass(frozen=True)
class _Work:
    """One marked copy to make: of which file, where it goes, by which recipe, about what, and what it answers to."""

    found: Found
    path: str
    recipe: str
    queries: list[Query]
    identity: Identity


def return_files(
    shelf: Shelf, files: SurveysRead, prints: Prints, queries: Sequence[Query], jobs: int, progress: Progress
) -> list[tuple[str, str]]:
    """A marked copy for each file with a query; one that stands and would say the same is left as it is.

    Returns first file and its content, as the copies' identities have them.
    """
    work: list[_Work] = []
    asked = list(_asked(files.found, files.taken, queries))
    for w in asked:
        recipe = sha([prints.surveys[w.found.name], prints.program, [asdict(q) for q in w.queries], w.identity.text])
        if not shelf.stands(w.path, recipe):
            work.append(replace(w, recipe=recipe))
    for path, recipe, data in _marked(work, jobs, progress):
        shelf.put(path, data, recipe)
    return [(w.identity.file, w.identity.first) for w in asked]


def marked_files(
    found: Sequence[Found], taken: Sequence[Taken], queries: Sequence[Query], jobs: int, progress: Progress
) -> Iterator[tuple[str, bytes]]:
    """Path and bytes of the marked copy of each file with a query."""
    work = list(_asked(found, taken, queries))
    yield from ((path, data) for path, _, data in _marked(work, jobs, progress))


def _asked(found: Sequence[Found], taken: Sequence[Taken], queries: Sequence[Query]) -> Iterator[_Work]:
    """Each file with a query, where its marked copy goes, its queries, and what the copy answers to."""
    by_file: dict[str, list[Query]] = defaultdict(list)
    for q in queries:
        by_file[q.file].append(q)
    names = names_of_copies([(t.file, t.returned) for t in taken])
    for f, t in zip(found, taken, strict=True):
        if f.name in by_file:
            identity = next_round(t.returned, t.content) if t.returned else first_round(f.name, t.content)
            yield _Work(f, names[f.name], "", by_file[f.name], identity)


def _marked(work: Sequence[_Work], jobs: int, progress: Progress) -> Iterator[tuple[str, str, bytes]]:
    if not work:
        return
    progress.stage("Marking surveys", len(work))
    with ExitStack() as stack:
        boxes: SimpleQueue[Sandbox] = SimpleQueue()
        for _ in range(max(1, min(jobs, len(work)))):
            boxes.put(stack.enter_context(Sandbox("pipeline.marking:marked_copy")))
        pool = stack.enter_context(ThreadPoolExecutor(max(1, min(jobs, len(work)))))
        for done, marked in enumerate(pool.map(lambda w: (w.path, w.recipe, _mark(w, boxes)), work), 1):
            yield marked
            progress.step(done)


def _mark(work: _Work, boxes: SimpleQueue[Sandbox]) -> bytes:
    """One marked copy: of the sender's own file where that goes well, else of its cells, else only the list."""
    found, queries = work.found, work.queries
    if found.reason or any(q.code == "UNREADABLE_FILE" for q in queries):
        return marked_copy("", found.name, None, queries, own=False)
    box = boxes.get()
    try:
        for own in (True, False):
            try:
                return box.run(found.path, found.name, None, list(queries), own, work.identity)
            except UnreadableFileError:
                continue
    finally:
        boxes.put(box)
    return marked_copy("", found.name, None, queries, own=False, identity=work.identity)
