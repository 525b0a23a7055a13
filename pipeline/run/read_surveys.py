"""Surveys taken in; a file whose bytes are known is not parsed again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pipeline.executors.processes import load_workers
from pipeline.intake.dictionary import Dictionary
from pipeline.intake.readers import Readers
from pipeline.intake.take_in import take_in
from pipeline.intake.taken import Taken
from pipeline.ledger.store import Ledger
from pipeline.reading import Found
from pipeline.run.request import Prints, Progress, Request, sha

FILES_A_READER = 40
"""So many files are read sooner by a reader that is there than another one starts. Source: measured."""


@dataclass(frozen=True)
class SurveysRead:
    """Every file taken in, and what the ledger is to remember of them."""

    found: tuple[Found, ...]
    taken: tuple[Taken, ...]
    fresh: Mapping[str, Taken]  # by key
    keys: tuple[str, ...]


def read_surveys(
    request: Request,
    found: Sequence[Found],
    prints: Prints,
    said: Dictionary,
    ledger: Ledger,
    readers: Readers,
    progress: Progress,
) -> SurveysRead:
    """All files taken in with the seller's dictionary `said`, in the order given."""
    common = sha([prints.program, dict(said.headings), {name: dict(words) for name, words in said.words.items()}])
    keys = [sha([f.name, prints.surveys[f.name], common]) for f in found]
    known = {key: Taken.unpacked(content) for key, content in ledger.surveys(keys).items()}
    new = [(key, f) for key, f in zip(keys, found, strict=True) if key not in known]
    jobs = min(len(readers), -(-sum(f.unreadable is None for _, f in new) // FILES_A_READER))
    readers.start(jobs)  # they load meanwhile
    if jobs and request.jobs > 1 and not request.cluster:
        load_workers()
    fresh: dict[str, Taken] = {}
    if new:
        progress.stage("Reading surveys", len(new))
        read = take_in([f for _, f in new], jobs, progress.step, readers, said)
        fresh = {key: taken for (key, _), taken in zip(new, read, strict=True)}
    every = known | fresh
    return SurveysRead(tuple(found), tuple(every[key] for key in keys), fresh, tuple(keys))
