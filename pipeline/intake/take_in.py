"""Surveys taken in: each file read in a child process, known ones not at all."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from typing import Any

from pipeline.intake.dictionary import EMPTY, Dictionary
from pipeline.intake.readers import Readers
from pipeline.intake.taken import Taken, refused
from pipeline.reading import Found
from pipeline.reading.book import UnreadableFileError
from pipeline.units import factors


def take_in(
    found: Sequence[Found],
    jobs: int,
    progress: Callable[[int], None],
    readers: Readers | None = None,
    seller_words: Dictionary = EMPTY,
) -> Iterator[Taken]:
    """Each file taken in, in the order given, `jobs` at a time; a file that kills its reader is refused in plain words.

    `seller_words` is the seller's dictionary. `readers` are left open; without them they are made for the call.
    """
    with ExitStack() as stack:
        own = readers or stack.enter_context(Readers(max(1, min(jobs, len(found)))))
        pool = stack.enter_context(ThreadPoolExecutor(max(1, min(jobs, len(own), len(found)))))
        asked = seller_words, factors()
        for done, taken in enumerate(pool.map(lambda f: _one(f, own, asked), found), 1):
            progress(done)
            yield taken


def _one(found: Found, readers: Readers, asked: tuple[Any, ...]) -> Taken:
    if found.unreadable is not None:
        return refused(found.name, found.unreadable)
    with readers.one() as box:
        began = time.monotonic()
        try:
            taken: Taken = box.run(found.path, found.name, *asked, hurry=readers.hurry)
        except UnreadableFileError as error:
            readers.refused_after(time.monotonic() - began)
            return refused(found.name, error)
    return taken
