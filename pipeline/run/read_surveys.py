"""Surveys taken in; a file whose bytes are known is not parsed again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

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
    fresh: Mapping[str, tuple[str, bytes]]  # by key: file, and what was read of it; what could not be read is not remembered
    keys: tuple[str, ...]  # of all that the ledger is to keep
    prints: Prints  # with those of the bytes that were read
    refused: frozenset[str]  # names of files that could not be read

    def without_rows(self) -> SurveysRead:
        """What is still asked of them once their rows are gathered; those take a third of a run's memory."""
        return replace(self, taken=tuple(replace(taken, rows=()) for taken in self.taken))


def read_surveys(
    request: Request,
    found: Sequence[Found],
    prints: Prints,
    seller_words: Dictionary,
    ledger: Ledger,
    readers: Readers,
    progress: Progress,
) -> SurveysRead:
    """All files taken in with the seller's dictionary `said`, in the order given.

    For a file that cannot be read stands what was last read under its name.
    """
    common = sha([prints.program, dict(seller_words.headings), {name: dict(words) for name, words in seller_words.words.items()}])
    keys = {f.name: sha([f.name, prints.surveys[f.name], common]) for f in found}
    packed = ledger.surveys(list(keys.values()))
    known = {name: Taken.unpacked(packed[key]) for name, key in keys.items() if key in packed}
    read = {
        taken.file: taken for taken in _read([f for f in found if f.name not in known], seller_words, request, readers, progress)
    }
    refused = {name: taken for name, taken in read.items() if not taken.content}
    instead = {name: before for name in refused if (before := _as_it_stood(name, ledger))}
    keys |= {name: sha([name, taken.content, common]) for name, taken in read.items()}
    keys |= {name: key for name, (key, _) in instead.items()}
    every = known | read | {name: _both(refused[name], before) for name, (_, before) in instead.items()}
    return SurveysRead(
        tuple(found),
        tuple(every[f.name] for f in found),
        {keys[name]: (name, taken.packed()) for name, taken in read.items() if name not in refused},
        tuple(key for name, key in keys.items() if name not in refused or name in instead),
        replace(prints, surveys={f.name: _print(f.name, read, prints) for f in found}),
        frozenset(refused),
    )


def _read(
    new: Sequence[Found], seller_words: Dictionary, request: Request, readers: Readers, progress: Progress
) -> Iterator[Taken]:
    """Files that are not known, each read in a child."""
    jobs = min(len(readers), -(-sum(f.unreadable is None for f in new) // FILES_A_READER))
    readers.start(jobs)  # they load meanwhile
    if jobs and request.jobs > 1 and not request.cluster:
        load_workers()
    if new:
        progress.stage("Reading surveys", len(new))
        yield from take_in(new, jobs, progress.step, readers, seller_words)


def _print(name: str, read: Mapping[str, Taken], prints: Prints) -> str:
    """The fingerprint of the bytes that were read; of a file that an accident kept from being read one that no file has."""
    taken = read.get(name)
    if taken is None or (taken.lasting and not taken.content):
        return prints.surveys[name]
    return taken.content or "not read"


def _as_it_stood(name: str, ledger: Ledger) -> tuple[str, Taken] | None:
    """Key and content of a file as the last finished run had it, where this program can still read that."""
    found = ledger.survey_named(name)
    try:
        return (found[0], Taken.unpacked(found[1])) if found else None
    except (KeyError, TypeError, ValueError):
        return None


def _both(refused: Taken, before: Taken) -> Taken:
    """A file that cannot be read, with the rows that it had."""
    note = "It cannot be read: its rows are those that were read the last time."
    return replace(before, queries=(*refused.queries, *before.queries), notes=(*before.notes, note))
