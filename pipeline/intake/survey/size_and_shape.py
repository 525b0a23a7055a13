"""A record's size with what it is stated as, the wall and the shape that it says; the shape that a line above says."""

from __future__ import annotations

import re

from pipeline.intake.layout.grid import line
from pipeline.intake.layout.record import Record, Stated
from pipeline.intake.layout.stated_shapes import shape_said
from pipeline.intake.survey.draft import Draft, how_it_came
from pipeline.intake.survey.fault import Fault
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.read_cell import typed
from pipeline.intake.survey.shape_words import shape_in
from pipeline.intake.survey.size import CIRCUMFERENCE, NOMINAL, Size, read_size
from schemas.lengths import INCH
from schemas.post_words import ANGULAR, EITHER_HEADING, ROUND_HEADING, SQUARE_HEADING, WOODEN


def take_size(draft: Draft, record: Record) -> None:
    """Read the size with what it is stated as, the wall and the shape that its cell says."""
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
        if how := how_it_came(stated):
            draft.comes_from("post_size", how, draft.typed["post_size"], size.outside)
        _wall(draft, size)


_ANGULAR = frozenset(fold(w) for w in ANGULAR)
_SEVERAL = re.compile(r"\b(?:or|ou|oder|rd|o|u)\b|[/&]", re.IGNORECASE)
_SAYS_ROUND, _SAYS_SQUARE, _SAYS_EITHER = (re.compile(p, re.IGNORECASE) for p in (ROUND_HEADING, SQUARE_HEADING, EITHER_HEADING))


def _shape(draft: Draft, size: Size, heading: str, others: tuple[Stated, ...]) -> None:
    """The shape where none is stated and the size, or its heading, says it; where both say another one, that is a CONFLICT.

    Source: design section 11, rule 6.
    """
    stated = draft.values.get("post_shape")
    if stated is None and size.shape == "square" and fold(draft.typed.get("post_shape", "")) in _ANGULAR:
        draft.faults = [f for f in draft.faults if f.name != "post_shape"]
    if stated is None and "post_shape" not in draft.faulty:
        only_square = _SAYS_SQUARE.search(heading) and not (
            _SAYS_ROUND.search(heading) or _SEVERAL.search(heading)
        )  # `Square side`
        either = _SAYS_EITHER.search(heading) and not only_square
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


def _shape_above(draft: Draft, said: Stated, others: tuple[Stated, ...]) -> None:
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


def _other_shapes(draft: Draft, inferred: str, others: tuple[Stated, ...]) -> None:
    """Shapes under headings that are not read, where they are not the inferred one: a CONFLICT at each."""
    for other in others:
        said = shape_in(typed(other.cell))
        if said and said != inferred:
            message = f"“{typed(other.cell)}” under “{other.heading.text}” may be the post's shape, and that heading is not read."
            draft.fault("post_shape", Fault("CONFLICT", message, "Head that column “Post shape”."), other.at)


_WOODEN = re.compile(WOODEN, re.IGNORECASE)


def _trade_name(draft: Draft, size: Size) -> None:
    """`4 x 4` of wood is a trade name of 3 1/2 in. Source: American Softwood Lumber Standard, PS 20 (memory)."""
    typed_size = draft.typed.get("post_size", "")
    inches = size.outside / INCH if size.outside and size.unit == "in" else 0.5
    wood = draft.values.get("material") == "wood" or _WOODEN.search(typed_size)
    if wood and re.match(r"\D*\d+\D{1,12}\d+\D*$", typed_size) and size.shape == "square" and abs(inches - round(inches)) < 1e-9:
        message = f"“{typed_size}” of wood is a trade name: such a post measures less."
        draft.fault("post_size", Fault("UNREADABLE", message, "the width as measured, such as 3 1/2 in"))


def _wall(draft: Draft, size: Size) -> None:
    """The wall that the size's cell says, where the wall's own cell is blank."""
    if size.wall is None or "wall" in draft.values or "wall" in draft.faulty or "wall" in draft.typed:
        return
    draft.values["wall"] = size.wall
    if size.nominal and not any("wall" in s for s in size.remarks):
        draft.remarks.append(f"The wall of {size.wall * 1000:.4g} mm is that of the stated schedule (ASME B36.10M).")
    draft.comes_from("wall", "schedule" if size.nominal else "size_cell", draft.typed["post_size"], size.wall)
