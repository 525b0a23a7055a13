"""Marked copies of the surveys about which there are queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import asdict
from queue import SimpleQueue

from pipeline.inputs import Prints, Tell, sha
from pipeline.intake.mark import marked_copy, returned_name
from pipeline.intake.model import Query, UnreadableFileError
from pipeline.intake.read import Found, Sandbox
from pipeline.output.shelf import Shelf
from pipeline.stages.taking import AllTaken

_Work = tuple[Found, str, str, list[Query]]


def return_files(shelf: Shelf, files: AllTaken, prints: Prints, queries: Sequence[Query], jobs: int, tell: Tell) -> None:
    """A marked copy for each file with a query; one that stands and would say the same is left as it is."""
    by_file: dict[str, list[Query]] = defaultdict(list)
    for q in queries:
        by_file[q.file].append(q)
    names = returned_name([f.name for f in files.found])
    work: list[_Work] = []
    for found in files.found:
        asked = by_file.get(found.name)
        if asked:
            recipe = sha([prints.surveys[found.name], prints.program, [asdict(q) for q in asked]])
            if not shelf.stands(names[found.name], recipe):
                work.append((found, names[found.name], recipe, asked))
    if not work:
        return
    tell.stage("Marking surveys", len(work))
    for done, (path, recipe, data) in enumerate(_marked(work, jobs), 1):
        shelf.put(path, data, recipe)
        tell.step(done)


def _marked(work: Sequence[_Work], jobs: int) -> Iterator[tuple[str, str, bytes]]:
    with ExitStack() as stack:
        boxes: SimpleQueue[Sandbox] = SimpleQueue()
        for _ in range(max(1, min(jobs, len(work)))):
            boxes.put(stack.enter_context(Sandbox("pipeline.intake.mark:marked_copy")))
        pool = stack.enter_context(ThreadPoolExecutor(max(1, min(jobs, len(work)))))
        yield from pool.map(lambda w: (w[1], w[2], _mark(w[0], w[3], boxes)), work)


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
