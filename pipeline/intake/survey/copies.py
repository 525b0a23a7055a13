"""Marked copies that came back: which of several files counts, and what one of them lost on the way.

Source: design section 12, rule 1.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, replace

from pipeline.intake.query import Query
from pipeline.intake.survey.fault import CellFault, Fault, RowRead
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.intake.taken import Taken
from schemas.order import folded, natural

_WHOSE = ("site_code", "site_name", "post_code", "quantity")


@dataclass(frozen=True)
class Copies:
    """The files in the order given with the rows that count; what was replaced of each, and by which file."""

    files: tuple[Taken, ...]
    replaced: Mapping[str, tuple[RowRead, ...]]
    by: Mapping[str, str]
    notes: Mapping[str, tuple[str, ...]]


def resolve_copies(files: Sequence[Taken], marked: Set[tuple[str, str]] = frozenset()) -> Copies:
    """Of a file and its marked copies the latest round counts; copies of one round are told apart row by row.

    A copy replaces its first file where that is among the files with the content that the copy answers to, or stands there
    under its name and has changed since: `marked` are name and content of files of which copies have gone out. The order of
    the files changes nothing.
    """
    counting = {f.file: f for f in files}
    replaced: dict[str, tuple[RowRead, ...]] = {}
    by: dict[str, str] = {}
    for copies in _by_first(files).values():
        last = max(_round(c) for c in copies)
        latest = sorted((c for c in copies if _round(c) == last), key=lambda c: natural(c.file))
        old = [c for c in copies if _round(c) < last] + _first_files(files, copies, marked)
        for f in old:
            replaced[f.file], by[f.file] = f.rows, latest[0].file
            counting[f.file] = replace(f, rows=(), queries=(), field=None)
        for f in _that_differ(latest, old) if len(latest) > 1 else ():
            kept = {_place(r) for r in f.rows}
            gone = tuple(r for r in counting[f.file].rows if _place(r) not in kept)
            if gone:
                replaced[f.file], by[f.file] = gone, next(c.file for c in latest if c.file != f.file)
            counting[f.file] = f
    return Copies(tuple(counting[f.file] for f in files), replaced, by, _notes(files, by))


def _round(copy: Taken) -> int:
    return copy.returned.round if copy.returned else 0


def _by_first(files: Iterable[Taken]) -> dict[tuple[str, str], list[Taken]]:
    """Copies by the file that they answer to, its content included: another file of that name is another file."""
    groups: dict[tuple[str, str], list[Taken]] = defaultdict(list)
    for f in files:
        if f.returned:
            groups[f.returned.file, f.returned.first].append(f)
    return groups


def _first_files(files: Iterable[Taken], copies: Sequence[Taken], marked: Set[tuple[str, str]]) -> list[Taken]:
    """The first file of some copies: with the content that they answer to, whatever its name, or changed under its own."""
    firsts = {c.returned.first for c in copies if c.returned}
    changed = {c.returned.file for c in copies if c.returned and (c.returned.file, c.returned.first) in marked}
    return [
        f
        for f in files
        if not f.returned and (f.file in changed or any(first and f.content.startswith(first) for first in firsts))
    ]


def _place(read: RowRead) -> tuple[str, str]:
    return read.row.sheet, read.row.label


def _that_differ(latest: Sequence[Taken], old: Sequence[Taken]) -> list[Taken]:
    """Copies of one round, each with the rows of it that count.

    A row that one copy left as it was gives way to the other's; what two changed in two ways is a CONFLICT in both.
    """
    made_of = {c.returned.made_of for c in latest if c.returned}
    base = {_place(r): r.row.typed for f in old if any(f.content.startswith(m) for m in made_of) for r in f.rows}
    by_place: dict[tuple[str, str], list[tuple[int, RowRead]]] = defaultdict(list)
    for n, copy in enumerate(latest):
        for read in copy.rows:
            by_place[_place(read)].append((n, read))
    kept: dict[int, list[RowRead]] = defaultdict(list)
    for place, rows in by_place.items():
        as_sent = base.get(place, base.get(("", place[1])))  # the sheet of a text file has no name
        for n, read in _that_count(rows, as_sent, latest):
            kept[n].append(read)
    return [replace(copy, rows=tuple(kept[n])) for n, copy in enumerate(latest)]


def _that_count(
    rows: Sequence[tuple[int, RowRead]], base: Mapping[str, str] | None, latest: Sequence[Taken]
) -> list[tuple[int, RowRead]]:
    """Of rows in one place of several copies, those that count: one where they agree, else all that differ, in doubt."""
    changed = [(n, r) for n, r in rows if r.row.typed != base] or list(rows)
    different = [(n, r) for k, (n, r) in enumerate(changed) if all(r.row.typed != s.row.typed for _, s in changed[:k])]
    if len(different) == 1:
        return different
    return [(n, _in_conflict(r, [latest[k].file for k, _ in different if k != n])) for n, r in different]


def _in_conflict(read: RowRead, others: Sequence[str]) -> RowRead:
    message = f"this row says otherwise in {' and in '.join(others)}, a copy that went out at the same time."
    fault = Fault("CONFLICT", message, "Make both copies say the same, or send one of them only.")
    at = read.row.cells.get("post_code") or next(iter(read.row.cells.values()), "")
    return replace(read, faults=(*read.faults, CellFault("post_code", at, fault)))


def _notes(files: Iterable[Taken], by: Mapping[str, str]) -> dict[str, tuple[str, ...]]:
    """What is said of a file that was replaced, and of a copy."""
    notes: dict[str, tuple[str, ...]] = {}
    for f in files:
        remarks = [f"A marked copy of {f.returned.file} that came back, round {f.returned.round}."] if f.returned else []
        remarks += [f"Replaced by {by[f.file]}, a marked copy that came back."] if f.file in by else []
        notes[f.file] = tuple(remarks)
    return notes


def lost_posts(
    copies: Copies, old: Mapping[str, Sequence[SurveyRow]], old_queries: Iterable[Query], now: Iterable[SurveyRow]
) -> tuple[list[SurveyRow], list[Query]]:
    """Posts of replaced files that their copies no longer have: held, since a copy can have been used for something else.

    `old` are the rows of each replaced file and `now` all rows that count, both with their codes. A row whose site, post or
    number was asked about is found again by its place.
    """
    present = {(r.file, folded(r.site_code), folded(r.post_code)) for r in now}
    places = {(r.file, r.sheet, r.label) for r in now} | {(r.file, "", r.label) for r in now}
    doubted = {(r.file, s, r.label) for r in now if "post_code" in r.unread for s in (r.sheet, "")}
    asked = {(q.file, q.sheet, q.record) for q in old_queries if q.name in _WHOSE}
    firsts = _copies_of(copies)
    lost, queries = [], []
    for file, rows in old.items():
        for r in rows:
            known = not r.site_code or (file, r.sheet, r.label) in asked or any(o.name in _WHOSE for o in r.origins)
            there = places if known else doubted
            if any((copy, r.sheet, r.label) in there for copy in firsts[file]) or any(
                (copy, folded(r.site_code), folded(r.post_code)) in present for copy in firsts[file]
            ):
                continue
            lost.append(replace(r, held=True))
            queries.append(_lost(r, copies.by[file]))
    return lost, queries


def _copies_of(copies: Copies) -> dict[str, list[str]]:
    """The files that count in place of each replaced one."""
    of = {f.file: (f.returned.file, f.returned.first) for f in copies.files if f.returned}
    return {file: [f for f, key in of.items() if key == of[by]] for file, by in copies.by.items()}


def _lost(r: SurveyRow, by: str) -> Query:
    message = f"Post: “{r.post_code or r.label}” stands here and no longer in {by}, the marked copy of this file that came back."
    put_right = "Put the post back into the copy; or, if that copy is another survey, type it into a form of its own."
    at = r.cells.get("post_code") or next(iter(r.cells.values()), "")
    return Query(r.file, r.sheet, at, "CONFLICT", message, put_right, True, r.site_code, r.post_code, "post_code", r.label)
