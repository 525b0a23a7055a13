"""One row of a table to its records: each value with its cell, what is taken from elsewhere, what is wrong."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from pipeline.intake.layout.carried import Carried, as_above, from_outside, in_block, is_mark
from pipeline.intake.layout.courts import is_court
from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.groups import Group, filled
from pipeline.intake.layout.place_names import is_within_a_ground
from pipeline.intake.layout.record import Heading, Record, Stated, Wrong
from pipeline.intake.layout.row_kinds import SITE
from pipeline.intake.layout.tables import Head, Table, feet_and_inches
from pipeline.intake.layout.titles import where_stated
from pipeline.intake.layout.told_numbers import counts_more, more_than_one, told_in
from pipeline.intake.measures import read_whole
from pipeline.intake.survey.heading_words import is_a_fitting, is_about_a_board
from pipeline.intake.survey.headings import fold, only_unit, says_where
from pipeline.intake.survey.list_words import read_word, rules_out
from pipeline.intake.survey.other_things import is_another_thing
from pipeline.intake.survey.post_cells import posts_named
from pipeline.intake.survey.read_cell import typed
from pipeline.intake.survey.shape_words import shape_in
from pipeline.reading.book import Cell, address
from schemas.survey import BARE_THINGS
from schemas.yes_no import OF_A_BOARD

_OF_A_BOARD = re.compile(rf"\b(?:{OF_A_BOARD})\b", re.IGNORECASE)
_OF_OTHER_THINGS = BARE_THINGS - {"bracket", "old", "existing", "new"}


@dataclass
class _Draft:
    """A record while it is made."""

    values: dict[str, Stated] = field(default_factory=dict)
    places: dict[str, str] = field(default_factory=dict)
    rivals: dict[str, tuple[Stated, ...]] = field(default_factory=dict)
    wrong: list[Wrong] = field(default_factory=list)
    shapes: list[Stated] = field(default_factory=list)
    warnings: list[Stated] = field(default_factory=list)


def records_of(table: Table, groups: list[Group], number: int, cells: Row, carried: Carried) -> list[Record]:
    """The records of one row; `carried` goes on to the next one."""
    there = filled(groups, cells)
    made = [_record(table, group, len(there), number, cells, carried) for group in there]
    for column in {h.column for hs in table.heads.values() for h in hs}:
        if not is_mark(cells.get(column)):
            carried.above[column] = cells.get(column)
    return made


def opens_block(table: Table, number: int, cells: Row, carried: Carried) -> None:
    """A row with nothing but a site's cells: the rows below it are that site's."""
    draft = _Draft()
    for name in SITE:
        if name in table.heads:
            _take(draft, table, name, table.heads[name], number, cells, carried)
    in_block(carried, draft.values, draft.places)
    carried.cut()


def states_another_site(table: Table, cells: Row, carried: Carried) -> bool:
    """Whether a row states another site than that of its block."""
    for name in SITE[:2]:
        there = [cells[h.column] for h in table.heads.get(name, ()) if h.column in cells and not is_mark(cells[h.column])]
        if there and name in carried.block and fold(str(there[0].value)) != where_stated(carried.block, name):
            return True
    return False


def _record(table: Table, group: Group, beside: int, number: int, cells: Row, carried: Carried) -> Record:
    """The record of one post, or of one number of identical posts."""
    draft = _Draft()
    for name, heads in group.heads.items():
        _take(draft, table, name, heads, number, cells, carried)
    _fixing_of_a_fitting(draft)
    court = _court_of_ground(draft) or ({"Court": carried.place} if carried.place else {})
    site = in_block(carried, draft.values, draft.places)
    own = (draft.values | site).get("site_name")
    draft.values = from_outside(carried, draft.values | site)
    if own and draft.values.get("site_name") != own:  # `Clubhouse` under `Location`, below a title
        court = {"Court": typed(own.cell)} | court
    _site_in_doubt(draft, carried)
    if group.label:
        _beside(draft, group, beside, cells)
    _beside_what_is_read(draft, table, cells)
    if "quantity" not in draft.values and (told := told_in(draft.values.get("notes"))):
        draft.values["quantity"] = told
    label = table.grid.label(number) + (f", {group.label}" if group.label else "")
    made = Record(
        table.sheet, number, label, draft.values, draft.places, court | _extra(table, cells), draft.rivals, tuple(draft.wrong)
    )
    return replace(made, shapes=tuple(draft.shapes), warnings=tuple(draft.warnings))


def _court_of_ground(draft: _Draft) -> dict[str, str]:
    """The ground alone where a place within it is said too: `Mill Road Park - north court`; the court by its heading."""
    own = draft.values.get("site_name")
    heading = own.heading.text if own else ""
    if own is None or own.how not in ("", "same_as_above") or not (says_where(heading) or is_court(heading)):
        return {}
    whole = typed(own.cell)
    ground = ground_in(whole)
    beside = whole.replace(ground, " ") if ground else ""
    within = re.sub(r"^\W+|\W+$", "", beside)
    if not within or not (_PARTED.search(beside.strip()) or is_within_a_ground(within)):  # `Parque de Merendas da Fonte`
        return {}
    draft.values["site_name"] = replace(own, cell=replace(own.cell, kind="text", value=ground, shown=""), how=own.how or "words")
    return {heading: within} if is_court(heading) else {}


_PARTED = re.compile(r"^[^\w\s]|[^\w\s)]$|\s[-–—|/:,;(]\s?")
"""A stroke, a comma or a bracket between a ground and a place within it."""


def _take(draft: _Draft, table: Table, name: str, heads: tuple[Head, ...], number: int, cells: Row, carried: Carried) -> None:
    """What stands under the headings of one column: the first filled cell counts, further ones are its rivals."""
    there = [h for h in heads if h.column in cells] or [heads[0]]
    draft.places[name] = table.grid.at(number, there[0].column)
    if together := _feet_with_inches(there, cells):
        draft.values[name] = together
        return
    rivals = []
    for head in there:
        cell = cells.get(head.column)
        if cell is None:
            continue
        heading = Heading(line(head.text), head.unit or _unit_beside(table, head, cells), head.address, head.basis)
        elsewhere = not table.grid.turned and cell.row != number
        got: Stated | Wrong = Stated(cell, heading, cell.address, "type_table" if elsewhere else "")
        if is_mark(cell) and name != "notes":
            got = as_above(carried, name, head.column, cell, heading, cell.address)
        if isinstance(got, Wrong):
            draft.wrong.append(got)
        elif name in draft.values:
            rivals.append(got)
        else:
            draft.values[name] = got
    if rivals and name == "old_fittings":
        rivals = _how_held(draft, rivals)
    if rivals:
        draft.rivals[name] = tuple(rivals)


def _fixing_of_a_fitting(draft: _Draft) -> None:
    """`Backboard` beside `bolted` under `How is it fixed?`: how what hangs on the post is held, and no post base."""
    hangs, held = draft.values.get("old_fittings"), draft.values.get("post_base")
    if hangs is None or held is None or read_word("old_fittings", typed(hangs.cell), hangs.heading.text):
        return
    of_the_post = read_word("post_base", typed(held.cell)) or re.search(_AT_THE_GROUND, held.heading.text, re.IGNORECASE)
    if is_a_fitting(typed(hangs.cell)) and not of_the_post and read_word("old_fittings", typed(held.cell)):
        draft.values["old_fittings"] = held
        del draft.values["post_base"]


_AT_THE_GROUND = r"\b(?:post|pole|base|ground|foot|foundation|footing|bottom|upright|suelo|sol|boden|suolo|solo|chão)\b"


def _how_held(draft: _Draft, rivals: list[Stated]) -> list[Stated]:
    """Of what hangs on a post, and how it is held, in columns of their own, the latter: `backboard` beside `bolted`."""
    every = [draft.values["old_fittings"], *rivals]
    said = [s for s in every if read_word("old_fittings", typed(s.cell), s.heading.text)]
    if not said or any(s not in said and not is_a_fitting(typed(s.cell)) for s in every):
        return rivals
    draft.warnings += [s for s in every if s not in said and rules_out("old_fittings", typed(s.cell))]
    draft.values["old_fittings"] = said[0]
    return said[1:]


def _feet_with_inches(heads: Sequence[Head], cells: Row) -> Stated | None:
    """One measure in two columns, whole feet and the inches beside them: `8` under `Height ft`, `6` under `Height in`."""
    if not feet_and_inches(heads):
        return None
    feet, inches = (cells[h.column] for h in heads)
    if any(c.kind not in ("number", "text") or not re.fullmatch(r"[0-9]{1,2}(\.[0-9]+)?", typed(c)) for c in (feet, inches)):
        return None
    if not typed(feet).isdigit() or float(typed(inches)) >= _INCHES_IN_A_FOOT:
        return None
    cell = replace(feet, kind="text", value=f"{typed(feet)} ft {typed(inches)} in", shown="", shown_unit="")
    return Stated(cell, Heading(line(heads[0].text), "", heads[0].address), feet.address)


_INCHES_IN_A_FOOT = 12


def _unit_beside(table: Table, head: Head, cells: Row) -> str:
    """The unit in the column of units behind a heading that shows none."""
    unit = cells.get(table.unit_columns.get(head.column, 0))
    return only_unit(str(unit.value)) if unit and unit.kind == "text" else ""


def _site_in_doubt(draft: _Draft, carried: Carried) -> None:
    """A lone text above the row may be the name of its ground."""
    doubt = carried.doubtful
    if doubt and not any(n in draft.values for n in ("site_code", "site_name")):
        shown = f"“{line(str(doubt.cell.value))}”"
        message = f"{shown} stands in a row of its own above: it is not clear whether it names the site."
        put_right = "Write the site's name on the rows themselves, or before the text: Site name: …"
        draft.wrong.append(Wrong("site_name", doubt.at, "CONFLICT", message, put_right))


def _beside_what_is_read(draft: _Draft, table: Table, cells: Row) -> None:
    """What a cell under a heading that is not read plainly says against the row.

    A shape is held against what the size says; a gooseneck and welded fittings rule kits out.
    """
    for head in (*table.heads.get("post_code", ()), *table.heads.get("post_shape", ())):
        if cell := cells.get(head.column):
            _is_a_post(draft, cell, head.text)
            if cell.kind == "text":
                _described(draft, Stated(cell, Heading(line(head.text), "", head.address), cell.address, "words"), table)
    for name in ("mount_asked", "board_asked", "ring_asked"):  # `Board`: `welded` is no item
        asked = draft.values.get(name)
        if asked and rules_out("old_fittings", typed(asked.cell), alone=True):
            draft.warnings.append(draft.values.pop(name))
    notes = draft.values.get("notes")
    if notes and "post_shape" not in table.heads and shape_in(typed(notes.cell), whole=False):
        draft.shapes.append(notes)
    for n, heading in table.extra.items():
        cell = cells.get(n)
        if cell and counts_more(heading) and (more := more_than_one(heading, cell)):
            draft.wrong.append(more)
        if cell is None or cell.kind != "text" or len(typed(cell)) < 2:
            continue
        of_another = bool({fold(w) for w in re.findall(r"\w+", heading)} & _OF_OTHER_THINGS)
        beside = Stated(cell, Heading(line(heading), "", table.heading_at(n)), cell.address, "words")
        alone = of_another and (not is_about_a_board(heading) or _OF_A_BOARD.search(typed(cell)) is not None)
        if any(rules_out(name, typed(cell), alone) for name in ("post_line", "old_fittings")):
            draft.warnings.append(beside)
        if of_another:
            continue
        _is_a_post(draft, cell, heading)
        if "post_shape" not in table.heads and shape_in(typed(cell)):
            draft.shapes.append(Stated(cell, Heading(line(heading)), cell.address))


def _described(draft: _Draft, said: Stated, table: Table) -> None:
    """What a post's name, or the words for its shape, say besides: `gooseneck post`, `round pole, arm welded`."""
    text = typed(said.cell)
    if any(rules_out(name, text) for name in ("post_line", "old_fittings")):
        draft.warnings.append(said)
    if "post_shape" not in table.heads and shape_in(text, whole=False):
        draft.shapes.append(said)


def _is_a_post(draft: _Draft, cell: Cell, heading: str) -> None:
    """A cell that names another thing: the row may be none of a basketball post."""
    if cell.kind == "text" and is_another_thing(typed(cell)):
        message = f"“{typed(cell)}” under “{line(heading)}” is no basketball post."
        draft.wrong.append(Wrong("post_code", cell.address, "CONFLICT", message, "Leave the row out where it is none."))


def _beside(draft: _Draft, group: Group, beside: int, cells: Row) -> None:
    """The post's name from its group and the row's own label; a number outside the groups is the number of groups."""
    own = min((n for n in group.own if n in cells), default=min(group.own))
    head = next(h for hs in group.heads.values() for h in hs if h.column == own)
    row_label = draft.values.get("post_code")
    if row_label is None or not any(h.column in group.own for h in group.heads.get("post_code", ())):
        words = typed(row_label.cell) if row_label else ""
        named = posts_named(words) if words else None
        text = group.label if named or not words else f"{words} {group.label}"
        cell = row_label.cell if row_label else cells.get(own)
        at = Cell(cell.row, cell.column, "text", text) if cell else Cell(head.row, head.column, "text", text)
        draft.values["post_code"] = Stated(at, Heading(line(head.text), "", head.address), at.address, "group_heading")
        draft.places.setdefault("post_code", at.address)
    number = draft.values.get("quantity")
    if number and not any(h.column in group.own for h in group.heads["quantity"]):
        _number_of_groups(draft, number, beside)


def _number_of_groups(draft: _Draft, number: Stated, beside: int) -> None:
    """The number of posts that a row states once for all its groups."""
    del draft.values["quantity"]
    stated = read_whole(number.cell.value) if number.cell.kind in ("text", "number") else None
    if stated != beside:
        message = f"“{typed(number.cell)}” posts are stated, and {beside} stand side by side on the row."
        draft.wrong.append(Wrong("quantity", number.at, "CONFLICT", message, f"{beside}, or fill in the posts that are missing."))


def _extra(table: Table, cells: Row) -> dict[str, str]:
    """Cells under headings that are not of the glossary, untouched, by heading."""
    extra: dict[str, str] = {}
    for n, heading in table.extra.items():
        cell = cells.get(n)
        if cell is None:
            continue
        letters = address(1, n)[:-1]
        key = line(heading) or (f"row {n}" if table.grid.turned else f"column {letters}")
        extra[key if key not in extra else f"{key} ({letters})"] = typed(cell)
    return extra


def names_a_site(values: Mapping[str, Stated]) -> bool:
    """Whether values say whose ground it is."""
    return any(n in values for n in SITE[:2])
