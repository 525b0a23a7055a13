"""One record of a survey: every cell read by itself, and what follows from it."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field, replace
from typing import Any

from pipeline.intake.layout.grid import line
from pipeline.intake.layout.legend import Legend, spelled_out
from pipeline.intake.layout.record import How, Record, Stated
from pipeline.intake.layout.stated_shapes import shape_said
from pipeline.intake.survey.fault import CellFault, Fault, RowRead
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.list_words import NO_WORDS, Seller, combined, question_of, read_word, rules_out
from pipeline.intake.survey.read_cell import Reading, read_cell, typed
from pipeline.intake.survey.size import CIRCUMFERENCE, NOMINAL, Size, read_size
from pipeline.intake.survey.survey_row import Origin, SurveyRow
from schemas.column import Column
from schemas.lengths import INCH
from schemas.post_words import ANGULAR, EITHER_HEADING, ROUND_HEADING, SQUARE_HEADING, WOODEN
from schemas.survey import SURVEY

_COLUMNS = {c.name: c for c in SURVEY.columns}
_ORDER = {c.name: n for n, c in enumerate(SURVEY.columns)}
_NO_UNIT = ("text", "code", "choice", "whole", "date")
_SIZE_PARTS = ("post_size", "size_basis")


@dataclass
class _Draft:
    """A row while it is read."""

    cells: dict[str, str]
    seller: Seller = field(default_factory=dict)
    legend: Legend = field(default_factory=dict)
    typed: dict[str, str] = field(default_factory=dict)
    values: dict[str, Any] = field(default_factory=dict)
    given: dict[str, str] = field(default_factory=dict)  # unit of each measure
    remarks: list[str] = field(default_factory=list)
    faults: list[CellFault] = field(default_factory=list)
    origins: list[Origin] = field(default_factory=list)
    answered: set[str] = field(default_factory=set)  # columns that several yes/no questions answer together

    @property
    def faulty(self) -> set[str]:
        """Columns that could not be read."""
        return {f.name for f in self.faults}

    def fault(self, name: str, fault: Fault, at: str = "") -> None:
        """Note a fault of a column, at its own cell unless said otherwise."""
        self.faults.append(CellFault(name, at or self.cells.get(name, ""), fault))

    def comes_from(self, name: str, how: How, words: str, taken_as: Any) -> None:
        """Note where a value comes from that was not typed in the cell itself."""
        self.origins.append(Origin(name, self.cells.get(name, ""), words, shown(taken_as), how))


def shown(value: Any) -> str:
    """A value as data/readings.csv has it: SI, at most ten digits."""
    if isinstance(value, tuple):
        return "; ".join(shown(v) for v in value)
    return f"{value:.10g}" if isinstance(value, float) else str(value)


def read_record(record: Record, file: str, seller: Seller = NO_WORDS) -> RowRead:
    """Read one record; nothing is looked at but its own cells. `seller` are the seller's own words of lists."""
    draft = _Draft(dict(record.places), seller, record.legend)
    for wrong in record.wrong:
        draft.fault(wrong.name, Fault(wrong.code, wrong.message, wrong.suggestion), wrong.at)
    for name in sorted(record.values, key=_ORDER.__getitem__):
        stated = record.values[name]
        draft.cells[name] = stated.at
        if name in record.rivals and _take_answers(draft, _COLUMNS[name], (stated, *record.rivals[name])):
            continue
        if name not in _SIZE_PARTS:
            _take(draft, _COLUMNS[name], stated)
    _take_size(draft, record)
    _warned(draft, record)
    for name, rivals in record.rivals.items():
        if name not in draft.answered:
            _contradicted(draft, _COLUMNS[name], record.values[name], rivals)
    return _row(draft, record, file)


def _take(draft: _Draft, column: Column, stated: Stated) -> None:
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


def _take_answers(draft: _Draft, column: Column, stated: tuple[Stated, ...]) -> bool:
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


def _warned(draft: _Draft, record: Record) -> None:
    """Welded fittings and a gooseneck, which rule kits out, wherever a row plainly says so: in its notes, under any heading.

    Where their own column says otherwise, that is a CONFLICT.
    """
    notes = [record.values["notes"]] if "notes" in record.values else []
    for name, value in (("old_fittings", "fixed"), ("post_line", "gooseneck")):
        own = [record.values[name]] if name in record.values and name in draft.faulty else []
        for stated in (*own, *notes, *record.warnings):
            if rules_out(name, typed(stated.cell)):
                _rule_out(draft, name, value, stated)


def _rule_out(draft: _Draft, name: str, value: str, stated: Stated) -> None:
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


def _origin(draft: _Draft, column: Column, stated: Stated, got: Reading) -> None:
    """Where the value comes from, where that is another cell or other words."""
    words = draft.typed[column.name]
    if how := _how(stated):
        draft.comes_from(column.name, how, words, got.value)
    elif got.how:
        draft.comes_from(column.name, got.how, words, got.value)


def _how(stated: Stated) -> How:
    """How a value got here; a bare number that takes its unit from a line above the table is read from there."""
    unit = stated.heading.unit if stated.heading.unit_in_title else ""
    return stated.how or ("title" if unit and typed(stated.cell, unit) != typed(stated.cell) else "")


def _take_size(draft: _Draft, record: Record) -> None:
    """Read the size with what it is stated as, the wall and the shape that its cell says."""
    if basis := record.values.get("size_basis"):
        _take(draft, _COLUMNS["size_basis"], basis)
    stated = record.values.get("post_size")
    word = None if "size_basis" in draft.faulty else draft.values.get("size_basis", "")
    heading = stated.heading if stated else None
    cell, unit = (stated.cell, stated.heading.unit) if stated else (None, "")
    if stated:
        draft.typed["post_size"] = typed(stated.cell, unit)
    size = read_size(cell, unit, word, heading.basis if heading else "")
    for name, fault in size.faults:
        draft.fault(name, fault)
    _shape(draft, size, heading.text if heading else "", record.shapes)
    if record.shape_above:
        _shape_above(draft, record.shape_above, record.shapes)
    _trade_name(draft, size)
    if "size_basis" not in draft.faulty and size.basis:
        if not word and size.basis in (NOMINAL, CIRCUMFERENCE):
            draft.comes_from("size_basis", "size_cell", draft.typed.get("post_size", ""), size.basis)
        draft.values["size_basis"] = size.basis
    if size.outside is not None and stated:
        draft.values["post_size"] = size.outside
        draft.given["post_size"] = size.unit
        draft.remarks += size.remarks
        if size.nominal:
            draft.values["size_nominal"] = True
        if how := _how(stated):
            draft.comes_from("post_size", how, draft.typed["post_size"], size.outside)
        _wall(draft, size)


_SAYS_ROUND, _SAYS_SQUARE, _SAYS_EITHER = (re.compile(p, re.IGNORECASE) for p in (ROUND_HEADING, SQUARE_HEADING, EITHER_HEADING))


def _shape(draft: _Draft, size: Size, heading: str, others: tuple[Stated, ...]) -> None:
    """The shape where none is stated and the size, or its heading, says it; where both say another one, that is a CONFLICT.

    Source: design section 11, rule 6.
    """
    stated = draft.values.get("post_shape")
    if stated is None and size.shape == "square" and fold(draft.typed.get("post_shape", "")) in ANGULAR:
        draft.faults = [f for f in draft.faults if f.name != "post_shape"]
    if stated is None and "post_shape" not in draft.faulty:
        either = _SAYS_EITHER.search(heading)
        of_heading = (
            "" if either else "square" if _SAYS_SQUARE.search(heading) else "round" if _SAYS_ROUND.search(heading) else ""
        )
        if size.read and (found := size.shape or of_heading):
            draft.values |= {"post_shape": found, "shape_inferred": True}
            words = draft.typed["post_size"] if size.shape else heading
            draft.comes_from("post_shape", "inferred", line(words), found)
            _other_shapes(draft, found, others)
    elif stated == "round" and size.shape == "square":
        message = f"“{draft.typed['post_size']}” is the size of a square post, but the post shape says round."
        draft.fault("post_size", Fault("CONFLICT", message, "the outside diameter as measured, such as 3 1/2 in"))


def _shape_above(draft: _Draft, said: Stated, others: tuple[Stated, ...]) -> None:
    """The shape that a line outside the table states, where the row states none; against what its size says, a CONFLICT."""
    shape, known, text = shape_said(typed(said.cell)), draft.values.get("post_shape"), typed(said.cell)
    if "post_shape" in draft.faulty or (known and not draft.values.get("shape_inferred")):
        return
    if known and known != shape:
        message = f"“{text}” ({said.at}) says {shape}, and “{draft.typed['post_size']}” says {known}."
        draft.fault("post_shape", Fault("CONFLICT", message, "Type the post's shape on its own row."))
    elif not known:
        draft.values |= {"post_shape": shape, "shape_inferred": True}
        draft.comes_from("post_shape", "title", text, shape)
        _other_shapes(draft, shape, others)


def _other_shapes(draft: _Draft, inferred: str, others: tuple[Stated, ...]) -> None:
    """Shapes under headings that are not read, where they are not the inferred one: a CONFLICT at each."""
    for other in others:
        word = read_word("post_shape", typed(other.cell))
        if word and word.value != inferred:
            message = f"“{typed(other.cell)}” under “{other.heading.text}” may be the post's shape, and that heading is not read."
            draft.fault("post_shape", Fault("CONFLICT", message, "Head that column “Post shape”."), other.at)


_WOODEN = re.compile(WOODEN, re.IGNORECASE)


def _trade_name(draft: _Draft, size: Size) -> None:
    """`4 x 4` of wood is a trade name of 3 1/2 in. Source: American Softwood Lumber Standard, PS 20 (memory)."""
    typed_size = draft.typed.get("post_size", "")
    inches = size.outside / INCH if size.outside and size.unit == "in" else 0.5
    wood = draft.values.get("material") == "wood" or _WOODEN.search(typed_size)
    if wood and re.match(r"\D*\d+\D{1,12}\d+\D*$", typed_size) and size.shape == "square" and abs(inches - round(inches)) < 1e-9:
        message = f"“{typed_size}” of wood is a trade name: such a post measures less."
        draft.fault("post_size", Fault("UNREADABLE", message, "the width as measured, such as 3 1/2 in"))


def _wall(draft: _Draft, size: Size) -> None:
    """The wall that the size's cell says, where the wall's own cell is blank."""
    if size.wall is None or "wall" in draft.values or "wall" in draft.faulty or "wall" in draft.typed:
        return
    draft.values["wall"] = size.wall
    if size.nominal and not any("wall" in s for s in size.remarks):
        draft.remarks.append(f"The wall of {size.wall * 1000:.4g} mm is that of the stated schedule (ASME B36.10M).")
    draft.comes_from("wall", "schedule" if size.nominal else "size_cell", draft.typed["post_size"], size.wall)


def _contradicted(draft: _Draft, column: Column, stated: Stated, rivals: tuple[Stated, ...]) -> None:
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


def _row(draft: _Draft, record: Record, file: str) -> RowRead:
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
