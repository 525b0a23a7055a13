"""One record of a survey: every cell read by itself, and what follows from it."""

from __future__ import annotations

import math
import re
from dataclasses import replace

from pipeline.intake.layout.grid import line
from pipeline.intake.layout.legend import spelled_out
from pipeline.intake.layout.record import Record, Stated
from pipeline.intake.survey.draft import Draft, how_it_came
from pipeline.intake.survey.fault import Fault, RowRead
from pipeline.intake.survey.heading_words import is_estimated
from pipeline.intake.survey.list_words import NO_WORDS, Seller, combined, question_of, rules_out
from pipeline.intake.survey.read_cell import Reading, read_cell, typed
from pipeline.intake.survey.size import CIRCUMFERENCE
from pipeline.intake.survey.size_and_shape import take_size
from pipeline.intake.survey.survey_row import Origin, SurveyRow
from schemas.column import Column
from schemas.survey import SURVEY, TOOL_OF
from schemas.yes_no import OF_THE_BASE

_COLUMNS = {c.name: c for c in SURVEY.columns}
_ORDER = {c.name: n for n, c in enumerate(SURVEY.columns)}
_NO_UNIT = ("text", "code", "choice", "whole", "date")
_SIZE_PARTS = ("post_size", "size_basis")


def read_record(record: Record, file: str, seller: Seller = NO_WORDS) -> RowRead:
    """Read one record; nothing is looked at but its own cells. `seller` are the seller's own words of lists."""
    draft = Draft(dict(record.places), seller, record.legend)
    for wrong in record.wrong:
        draft.fault(wrong.name, Fault(wrong.code, wrong.message, wrong.suggestion), wrong.at)
    for name in sorted(record.values, key=_ORDER.__getitem__):
        stated = record.values[name]
        draft.cells[name] = stated.at
        if name in record.rivals and _take_answers(draft, _COLUMNS[name], (stated, *record.rivals[name])):
            continue
        if name not in _SIZE_PARTS:
            _take(draft, _COLUMNS[name], stated)
    if basis := record.values.get("size_basis"):
        _take(draft, _COLUMNS["size_basis"], basis)
    take_size(draft, record)
    _estimated(draft, record)
    _warned(draft, record)
    for name, rivals in record.rivals.items():
        if name not in draft.answered:
            _contradicted(draft, _COLUMNS[name], record.values[name], rivals)
    return _row(draft, record, file)


def _take(draft: Draft, column: Column, stated: Stated) -> None:
    """Read one column's cell into the draft."""
    name, unit = column.name, stated.heading.unit
    draft.typed[name] = typed(stated.cell, "" if column.kind in _NO_UNIT else unit)
    words = spelled_out(draft.legend, name, stated.cell) if column.kind == "choice" and draft.legend else ""
    cell = replace(stated.cell, kind="text", value=words) if words else stated.cell
    got = read_cell(column, cell, unit, heading=stated.heading.text, seller=draft.seller)
    if words and isinstance(got, Reading):
        got = replace(got, how="words")
    if isinstance(got, Fault):
        draft.fault(name, got)
    elif got.value is not None:
        draft.values[name] = got.value
        draft.remarks += got.remarks
        if got.unit:
            draft.given[name] = got.unit
        _origin(draft, column, stated, got)


def _take_answers(draft: Draft, column: Column, stated: tuple[Stated, ...]) -> bool:
    """Read several yes/no questions about one column together; False where they are none, or leave nothing."""
    if not any(question_of(s.heading.text, column.name) for s in stated):
        return False
    value = combined(column.name, [(s.heading.text, _yes_or_no(s)) for s in stated])
    if value is None:
        return False
    draft.answered.add(column.name)
    draft.typed[column.name] = "; ".join(f"{line(s.heading.text)} {typed(s.cell)}" for s in stated)
    draft.values[column.name] = value
    draft.comes_from(column.name, "words", draft.typed[column.name], value)
    return True


def _estimated(draft: Draft, record: Record) -> None:
    """What stands under `Approximate height` is an estimate, where nothing else is said of how it was measured."""
    for name, tool in TOOL_OF.items():
        stated = record.values.get(name)
        if stated and tool not in record.values and name in draft.values and is_estimated(stated.heading.text):
            draft.values[tool] = "estimate"
            draft.origins.append(
                Origin(tool, stated.heading.address or stated.at, line(stated.heading.text), "estimate", "words")
            )


def _warned(draft: Draft, record: Record) -> None:
    """Welded fittings and a gooseneck, which rule kits out, wherever a row plainly says so: in its notes, under any heading.

    Where their own column says otherwise, that is a CONFLICT.
    """
    notes = [record.values["notes"]] if "notes" in record.values else []
    for name, value in (("old_fittings", "fixed"), ("post_line", "gooseneck")):
        own = [record.values[name]] if name in record.values and name in draft.faulty else []
        beside = [record.values[n] for n in _SAID_BESIDE[name] if n in record.values]
        beside += [s for s in _how_fixed(draft, record) if name == "old_fittings"]
        for stated in (*own, *beside, *notes, *record.warnings):
            if rules_out(name, typed(stated.cell)):
                _rule_out(draft, name, value, stated)


_SAID_BESIDE = {
    "old_fittings": ("condition", "post_shape", "post_line"),
    "post_line": ("condition", "post_shape", "post_base", "material"),
}
"""Columns of words under which people also say what is welded on, or that the post is a gooseneck."""


def _how_fixed(draft: Draft, record: Record) -> list[Stated]:
    """What cannot be read under `Fixed how`, which can be said of the board as well as of the post's base."""
    stated = record.values.get("post_base")
    of_base = stated is None or _OF_THE_BASE.search(stated.heading.text)
    return [stated] if stated and "post_base" in draft.faulty and not of_base else []


_OF_THE_BASE = re.compile(OF_THE_BASE, re.IGNORECASE)


def _rule_out(draft: Draft, name: str, value: str, stated: Stated) -> None:
    known = draft.values.get(name, "unknown")
    if known == value:
        return
    text = typed(stated.cell)
    if name in draft.faulty or known == "unknown":
        draft.faults = [f for f in draft.faults if f.name != name]
        draft.values[name] = value
        draft.cells.setdefault(name, stated.at)
        draft.origins.append(Origin(name, stated.at, text, value, "words"))
        return
    message = f"“{text}” ({stated.at}) says {value}, and “{draft.typed[name]}” is stated."
    draft.fault(name, Fault("CONFLICT", message, "Type the one that is right."))


def _yes_or_no(stated: Stated) -> str:
    if stated.cell.kind == "bool":
        return "yes" if stated.cell.value else "no"
    return typed(stated.cell)


def _origin(draft: Draft, column: Column, stated: Stated, got: Reading) -> None:
    """Where the value comes from, where that is another cell or other words."""
    words = draft.typed[column.name]
    if how := how_it_came(stated):
        draft.comes_from(column.name, how, words, got.value)
    elif got.how:
        draft.comes_from(column.name, got.how, words, got.value)


def _contradicted(draft: Draft, column: Column, stated: Stated, rivals: tuple[Stated, ...]) -> None:
    """Further cells that mean the same column and say something else: a CONFLICT at each."""
    first, *others = (
        read_cell(column, s.cell, s.heading.unit, s.heading.basis, s.heading.text, draft.seller) for s in (stated, *rivals)
    )
    for rival, says in zip(rivals, others, strict=True):
        if not _same(first, says):
            message = (
                f"“{typed(stated.cell, stated.heading.unit)}” under “{line(stated.heading.text)}” and "
                f"“{typed(rival.cell, rival.heading.unit)}” under “{line(rival.heading.text)}” contradict each other."
            )
            put_right = "Leave the right one of the two and empty the other cell."
            draft.fault(column.name, Fault("CONFLICT", message, put_right), rival.at)


def _same(a: Reading | Fault, b: Reading | Fault) -> bool:
    """Whether two cells say the same thing."""
    if isinstance(a, Fault) or isinstance(b, Fault):
        return False
    if isinstance(a.value, float) and isinstance(b.value, float):
        return math.isclose(a.value, b.value, rel_tol=0, abs_tol=1e-9)
    return bool(a.value == b.value)


def _row(draft: Draft, record: Record, file: str) -> RowRead:
    faulty = draft.faulty
    values = {n: v for n, v in draft.values.items() if n not in faulty}
    for name, beside in (("post_shape", "shape_inferred"), ("post_size", "size_nominal")):
        if name not in values:
            values.pop(beside, None)
    if values.get("size_basis") == CIRCUMFERENCE and "post_size" in values:
        draft.remarks.append(f"The outside diameter of {values['post_size'] * 1000:.4g} mm is the circumference over pi.")
    if values.get("post_shape") == "square" and values.get("size_basis") == "outside diameter":
        draft.remarks.append("The outside diameter of a square post is taken as its width across the flats.")
    units = {n: u for n, u in draft.given.items() if n in values}
    row = SurveyRow(
        file=file, sheet=record.sheet, row=record.row, label=record.label, held=False,
        typed={n: draft.typed[n] for n in _ORDER if n in draft.typed}, cells=draft.cells, units=units,
        remarks=tuple(draft.remarks), extra=dict(record.extra), origins=tuple(o for o in draft.origins if o.name in values),
        unread=frozenset(faulty), **values,
    )  # fmt: skip
    asked = tuple((n, at) for n, at in record.asked.items() if n not in record.values and n not in values)
    return RowRead(row, tuple(draft.faults), asked)
