"""Answers of field sheets put into the rows of the posts that they are about. Source: design section 12, rule 4."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby
from typing import Any

from pipeline.intake.field_sheet import FieldAnswer, FieldSheet, answered_as, field_query
from pipeline.intake.query import Query
from pipeline.intake.survey.fault import CellFault, Fault, RowRead
from pipeline.intake.survey.survey_row import Origin
from schemas.field import ALL
from schemas.order import folded, natural
from schemas.survey import SURVEY, TOOL_OF

_HEADING = {c.name: c.heading for c in SURVEY.columns}
Place = tuple[str, str, str, str]
"""File, sheet and label of a row, and the name of a column."""


@dataclass(frozen=True)
class Answered:
    """The rows with the answers in them, what must be asked about the field sheets, and where each answer stands."""

    rows: tuple[RowRead, ...]
    queries: tuple[Query, ...]
    places: Mapping[Place, tuple[str, str, str]]  # -> file, sheet, cell of the field sheet


@dataclass(frozen=True)
class _Given:
    """An answer and the field sheet that it stands on."""

    file: str
    answer: FieldAnswer

    @property
    def where(self) -> str:
        return f"{self.file}, sheet {self.answer.sheet}, {self.answer.cell}"


@dataclass
class _Found:
    """What comes of the field sheets."""

    rows: list[RowRead]
    queries: list[Query] = field(default_factory=list)
    places: dict[Place, tuple[str, str, str]] = field(default_factory=dict)


def with_field_answers(rows: Sequence[RowRead], sheets: Sequence[tuple[str, FieldSheet]]) -> Answered:
    """Rows whose sites and posts have their codes, with what was found on site; the order of rows and files changes nothing.

    `sheets` are the field sheets that came back, each with its file.
    """
    if not sheets:
        return Answered(tuple(rows), (), {})
    found = _Found(list(rows))
    at: dict[tuple[str, str], list[int]] = defaultdict(list)
    for i, r in enumerate(rows):
        at[folded(r.row.site_code), folded(r.row.post_code)].append(i)
    known = {site for site, _ in at}
    asked: dict[tuple[str, str, str], list[_Given]] = defaultdict(list)
    for file, sheet in sorted(sheets, key=lambda s: natural(s[0])):
        found.queries += _unknown(file, sheet, known, at.keys())
        for answer in sheet.answers:
            asked[folded(sheet.site_code), folded(answer.post_code), answer.name].append(_Given(file, answer))
    for (site, post, name), given in sorted(asked.items(), key=lambda item: item[0]):
        for i in at[site, post] if name else ():
            _take(found, i, name, given, site)
    return Answered(tuple(found.rows), tuple(found.queries), found.places)


def _unknown(file: str, sheet: FieldSheet, sites: set[str], posts: Any) -> Iterator[Query]:
    """What a field sheet answers that no survey asks."""
    site = folded(sheet.site_code)
    filled = [a for a in sheet.answers if not a.blank]
    if site not in sites:
        message = f"No survey among the files has the site “{sheet.site_code}”, which this field sheet is about."
        yield Query(file, "", "", "MISSING", message, "Put the survey of that site among the files.", False, sheet.site_code)
        return
    for a in filled:
        if (site, folded(a.post_code)) not in posts:
            message = f"No survey has a post “{a.post_code}” at “{sheet.site_code}”: the answer counts for nothing."
            put_right = "Type the post as the survey calls it."
            yield replace(field_query(a, a.cell, "MISSING", message, put_right), file=file, site_code=sheet.site_code)


def _take(found: _Found, i: int, name: str, given: Sequence[_Given], site: str) -> None:
    """What was answered about one column of one row."""
    read = found.rows[i]
    whole: list[_Given] = []
    for file, some in groupby(given, key=lambda g: g.file):
        rows = list(some)
        filled = [g for g in rows if not g.answer.blank]
        if not filled:
            continue
        if not _same_all(filled):
            found.rows[i] = _in_conflict(read, name, filled, "the posts of this row differ", "Give each post a row of its own.")
            return
        if _of_all_posts(rows, filled, read.row.quantity or 1):
            whole.append(filled[0])
        else:
            count = f"{len(filled)} of {max(len(rows), read.row.quantity or 1)} posts"
            message = f"{_HEADING[name]}: only {count} of this row are answered, so that it stays open."
            put_right = f"Fill in the others, or put “{ALL}” under Looked at where all of them were looked at."
            query = field_query(filled[0].answer, filled[0].answer.cell, "MISSING", message, put_right)
            found.queries.append(replace(query, file=file, site_code=read.row.site_code))
    if not whole:
        return
    latest = _latest(whole)
    if not _same_all(latest):
        found.rows[i] = _in_conflict(read, name, latest, "two field sheets say otherwise", "Say on each when it was filled in.")
        return
    _put(found, i, name, latest[0])


def _of_all_posts(rows: Sequence[_Given], filled: Sequence[_Given], posts: int) -> bool:
    """Whether an answer is that of all posts of its row: each was asked about, or a tick says so."""
    if any(folded(g.answer.looked) == ALL for g in filled):
        return True
    return len(filled) == len(rows) and len(rows) >= posts


def _latest(given: Sequence[_Given]) -> list[_Given]:
    """The answers with the latest day; all of them where one has none."""
    if all(g.answer.on for g in given):
        day = max(g.answer.on for g in given)
        return [g for g in given if g.answer.on == day]
    return list(given)


def _same_all(given: Sequence[_Given]) -> bool:
    first = given[0].answer
    return all(_same(first.values[first.name], g.answer.values[g.answer.name]) for g in given)


def _same(a: Any, b: Any) -> bool:
    if isinstance(a, float) and isinstance(b, float):
        return math.isclose(a, b, rel_tol=0, abs_tol=1e-9)
    return bool(a == b)


def _in_conflict(read: RowRead, name: str, given: Sequence[_Given], why: str, put_right: str) -> RowRead:
    listed = " and ".join(f"“{g.answer.typed}” ({g.where})" for g in given[:3])
    fault = Fault("CONFLICT", f"{why}: {listed}.", put_right)
    return replace(read, faults=(*read.faults, CellFault(name, read.row.cells.get(name, ""), fault)))


def _put(found: _Found, i: int, name: str, given: _Given) -> None:
    """The answer in place of what the survey says; a CONFLICT where that has changed since the field sheet was written."""
    read, answer = found.rows[i], given.answer
    row, own = read.row, read.row.typed.get(name, "")
    if " ".join(own.split()) != " ".join(answer.was.split()) and not _same(getattr(row, name), answer.values[name]):
        was = f"“{answer.was}”" if answer.was else "nothing"
        why = f"the cell says “{own}”, where it said {was} when the field sheet was written, which came back with"
        found.rows[i] = _in_conflict(read, name, [given], why, "Type here what is right, as it is on site.")
        return
    changed = _changed(row, name, answer)
    names = {name, *changed}
    given_as = (answer.cell, answer.typed, answered_as(answer), "field_sheet", given.file, answer.sheet, _who(answer))
    origin = Origin(name, *given_as)
    found.rows[i] = replace(
        read,
        row=replace(
            row,
            **changed,
            typed={**row.typed, name: answer.typed},
            own={**row.own, name: own},
            units={**row.units, name: answer.unit} if answer.unit else row.units,
            remarks=(*row.remarks, *answer.remarks),
            origins=(*(o for o in row.origins if o.name not in names), origin),
            unread=row.unread - names,
        ),
        faults=tuple(f for f in read.faults if f.name not in names),
        asked=tuple((n, cell) for n, cell in read.asked if n not in names),
    )
    found.places[row.file, row.sheet, row.label, name] = given.file, answer.sheet, answer.cell


def _changed(row: Any, name: str, answer: FieldAnswer) -> dict[str, Any]:
    """The columns of a row that an answer sets."""
    changed: dict[str, Any] = dict(answer.values)
    if name in TOOL_OF:
        changed[TOOL_OF[name]] = answer.tool or None
    if name == "post_size":
        changed = {"size_nominal": False, "size_basis": None} | changed
    if name == "post_shape":
        changed["shape_inferred"] = False
    if name == "strength_cleared":
        changed |= {"cleared_by": answer.by or row.cleared_by, "cleared_moment": answer.up_to}
    return changed


def _who(answer: FieldAnswer) -> str:
    return ", ".join(filter(None, (answer.by and f"by {answer.by}", answer.on)))
