"""What a row takes from elsewhere: from the row above by a mark, from its block, from its section or title."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from pipeline.intake.layout.courts import may_be_a_court
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.record import Heading, Stated, Wrong
from pipeline.intake.layout.row_kinds import SITE
from pipeline.intake.layout.titles import Pair, Title, where_stated
from pipeline.intake.survey.headings import FAINT, says_where
from pipeline.intake.survey.post_cells import is_same_as_above
from pipeline.reading.book import Cell
from schemas.survey import SURVEY

NEVER_SAME = ("post_code", "notes", "strength_cleared", "cleared_by")
"""Columns in which a mark for the same as above takes nothing."""

_IDENTITY = ("site_code", "site_name")


@dataclass
class Carried:
    """What can be taken by the next row of a sheet.

    `above` has the nearest cell above by column (None where it is blank), `block` the site's cells of the block,
    `section` the name of the ground in a row of its own, `doubtful` a lone text that may be such a name.
    """

    title: Title = field(default_factory=Title)
    block: dict[str, Stated] = field(default_factory=dict)
    above: dict[int, Cell | None] = field(default_factory=dict)
    section: Stated | None = None
    doubtful: Stated | None = None
    fresh: bool = False  # whether no post has come since a row of its own
    place: str = ""  # a part of the ground, named in a row of its own
    one_site: bool = False  # whether the table states one site at most

    def heading(self) -> None:
        """A heading row ends what was carried, but for the title, and for a ground named since the last post."""
        self.block = {}
        if not self.fresh:
            self.section = self.doubtful = None
        self.cut()

    def cut(self) -> None:
        """Nothing above is the same as what comes: a section row, a title, a total."""
        self.above = {}

    def begin(self, section: Stated | None, doubtful: Stated | None = None) -> None:
        """A row of its own names the ground of the rows below it."""
        self.section, self.doubtful, self.block, self.place = section, doubtful, {}, ""
        self.fresh = True
        self.cut()


def is_mark(cell: Cell | None) -> bool:
    """Whether a cell holds nothing but a mark for the same as above."""
    return cell is not None and cell.kind == "text" and is_same_as_above(str(cell.value))


def as_above(carried: Carried, name: str, column: int, cell: Cell, heading: Heading, at: str) -> Stated | Wrong:
    """What a mark in `cell` takes from above."""
    shown = f"“{str(cell.value).strip()}”"
    titled = SURVEY.column(name).heading
    if name in NEVER_SAME:
        message = f"{shown} stands for the same as above, which this column does not take."
        return Wrong(name, at, "UNREADABLE", message, f"Type this row's own “{titled}”.")
    in_its_block = carried.block[name].cell if name in carried.block else None
    source = in_its_block if name in SITE else carried.above.get(column)
    if source is None:
        message = f"{shown} stands for the same as above, and nothing stands above it."
        return Wrong(name, at, "MISSING", message, f"Type the “{titled}” itself.")
    return Stated(source, heading, at, "same_as_above")


def in_block(carried: Carried, own: dict[str, Stated], places: dict[str, str]) -> dict[str, Stated]:
    """The site's cells of a row with what its block has; a row that states another site starts a block of its own."""
    stated = {n: s for n, s in own.items() if n in SITE}
    if any(n in stated and where_stated(stated, n) != where_stated(carried.block, n) for n in _IDENTITY):
        carried.block = {}
    carried.block |= {n: replace(s, how="") for n, s in stated.items()}
    taken = {n: replace(s, at=places.get(n, s.at), how="block") for n, s in carried.block.items() if n not in stated}
    return taken | stated


def from_outside(carried: Carried, values: dict[str, Stated]) -> dict[str, Stated]:
    """`values` with what section and title say; a row that states a site of its own takes nothing of another's."""
    title = carried.title.stated()
    if ("site_name" in title or carried.section) and (own := values.get("site_name")) and _within(own):
        values = {n: s for n, s in values.items() if n != "site_name"}
    of_no_site = {n: s for n, s in title.items() if n not in SITE or not _names_a_site(title)}
    if _names_a_site(values):
        return (title if _agree(values, title, carried.one_site) else of_no_site) | values
    if carried.section:
        return of_no_site | {"site_name": carried.section} | values
    return (of_no_site if carried.doubtful else title) | values


def _within(own: Stated) -> bool:
    """Whether a row's own name says where within a ground it is: `Playground` under `Location`."""
    return own.how in ("", "same_as_above", "block") and is_a_place(own)


def is_a_place(own: Stated) -> bool:
    """Whether a site's name stands under a heading that says where, or over courts, and is no name of a ground."""
    return (says_where(own.heading.text) or may_be_a_court(own.heading.text)) and not ground_in(str(own.cell.value))


def is_within(carried: Carried, pairs: Sequence[Pair]) -> bool:
    """Whether labels say no more than where on a ground that a surer label, or a row of its own, has named: `Building: Annex`."""
    named = carried.title.values.get("site_name") or carried.title.values.get("site_code")
    surely = (named is not None and named.claim.strength > FAINT) or carried.section is not None
    faint = [p for p in pairs if p.claim.name in _IDENTITY]
    where = bool(faint) and all(p.claim.strength == FAINT and not ground_in(str(p.stated.cell.value)) for p in faint)
    return surely and where


def _names_a_site(values: dict[str, Stated]) -> bool:
    return any(n in values for n in _IDENTITY)


def _agree(values: dict[str, Stated], title: dict[str, Stated], one_site: bool) -> bool:
    """Whether a row's own site is the one that stands above the table."""
    both = [n for n in _IDENTITY if n in values and n in title]
    return all(where_stated(values, n) == where_stated(title, n) for n in both) if both else one_site
