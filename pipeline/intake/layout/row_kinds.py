"""What a row below a heading is: a post, a total, a site's own row, a title, or a remark."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from pipeline.intake.layout.beside import group_label
from pipeline.intake.layout.courts import may_be_a_court
from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.heading_rows import OF_A_POST
from pipeline.intake.layout.place_names import begins_like_a_name, is_place_name
from pipeline.intake.layout.stated_shapes import shape_said
from pipeline.intake.layout.tables import Table
from pipeline.intake.layout.titles import whole_row_of_labels
from pipeline.intake.survey.headings import says_where
from pipeline.intake.survey.post_cells import is_same_as_above, posts_named
from pipeline.reading.book import Cell
from schemas.grounds import (
    CLOSINGS,
    COUNTED_THINGS,
    GREETINGS,
    GROUND_WORDS,
    PLACES_WITHIN,
    REMARKS,
    REMARKS_ELSEWHERE,
    SUBTOTALS,
    TOTALS,
)
from schemas.order import folded
from schemas.title_labels import ADDRESS, BESIDE_A_SITE

Kind = Literal["post", "total", "partial", "elsewhere", "title", "block", "section", "doubtful", "place", "remark"]

SITE = ("site_code", "site_name", "customer", "site_kind")
"""Columns that say whose ground it is: they are carried down."""

_TOTAL = re.compile(TOTALS, re.IGNORECASE)
_PARTIAL = re.compile(SUBTOTALS, re.IGNORECASE)
_NUMBER = re.compile(rf"[-+−]?[\d.,'\s]+( ?(?:{COUNTED_THINGS}|ft|in|m|mm))?\.?", re.IGNORECASE)
_TELLING = ("site_code", "site_name", *sorted(OF_A_POST))


@dataclass(frozen=True)
class Columns:
    """What the kinds of a table's rows depend on."""

    table: Table

    @cached_property
    def claimed(self) -> frozenset[int]:
        """Columns that are known."""
        return frozenset(h.column for hs in self.table.heads.values() for h in hs)

    @cached_property
    def site(self) -> frozenset[int]:
        """Columns that say whose ground it is."""
        return self.of(*SITE)

    @cached_property
    def names_site(self) -> bool:
        """Whether the table has a column for the site itself."""
        return bool(self.of("site_code", "site_name"))

    @cached_property
    def one_site(self) -> bool:
        """Whether the rows state one site at most."""
        texts = {folded(str(row[n].value)) for _, row in self.table.rows for n in self.of("site_code") if n in row}
        names = {folded(str(row[n].value)) for _, row in self.table.rows for n in self.of("site_name") if n in row}
        return len(texts) <= 1 and len(names) <= 1

    @cached_property
    def beside(self) -> frozenset[int]:
        """Columns that say nothing about a post."""
        return self.site | self.of("notes")

    @cached_property
    def codes(self) -> frozenset[tuple[int, str]]:
        """Column and folded text of every cell that has company in its row."""
        cells = (item for _, row in self.table.rows if len(row) > 1 for item in row.items())
        return frozenset((n, folded(str(c.value))) for n, c in cells if c.kind == "text")

    def only_places(self, column: int) -> bool:
        """Whether a column says where on a ground by its heading, and none of its cells beside others names a ground."""
        texts = [str(row[column].value) for _, row in self.table.rows if column in row and len(row) > 2]
        head = next(h for hs in self.table.heads.values() for h in hs if h.column == column)
        return (says_where(head.text) or may_be_a_court(head.text)) and bool(texts) and not any(map(ground_in, texts))

    def of(self, *names: str) -> frozenset[int]:
        """Columns that the headings of some names claim."""
        return frozenset(h.column for n in names for h in self.table.heads.get(n, ()))


def kind_of(columns: Columns, cells: Row) -> Kind:
    """What a row is; a row in doubt is a post."""
    if total := kind_of_total(cells):
        return total
    if whole_row_of_labels(cells):
        return "title"
    if len(cells) == 1 and (lone := _lone(columns, *next(iter(cells.items())))):
        return lone
    first = next(iter(cells.values()))
    if (
        len(cells) <= 2
        and first.kind == "text"
        and str(first.value).rstrip().endswith(":")
        and (_REMARK.fullmatch(line(str(first.value))) or _BESIDE_A_SITE.fullmatch(line(str(first.value))))
    ):
        return "remark"
    if not any(n in columns.claimed for n in cells):
        return "elsewhere"
    if all(n in columns.site for n in cells):
        return "block"
    return "post"


def is_an_address(cells: Row) -> bool:
    """Whether a row says nothing but an address: behind posts, that of another ground."""
    return len(cells) == 1 and _ADDRESS.fullmatch(line(str(next(iter(cells.values())).value))) is not None


_ADDRESS = re.compile(ADDRESS, re.IGNORECASE)


def kind_of_total(cells: Row) -> Literal["total", "partial", ""]:
    """`total`, `partial` or '': a label of a total, and otherwise nothing but numbers."""
    label, *rest = cells.values()
    if label.kind == "number" and rest:  # a running number in front of the label
        label, *rest = rest
    text = line(str(label.value)) if label.kind == "text" else ""
    kind: Literal["total", "partial", ""] = "total" if _TOTAL.fullmatch(text) else "partial" if _PARTIAL.fullmatch(text) else ""
    return kind if kind and all(_is_numeric(c) for c in rest) else ""


def _is_numeric(cell: Cell) -> bool:
    return cell.kind in ("number", "error", "no_result") or (
        cell.kind == "text" and _NUMBER.fullmatch(str(cell.value).strip()) is not None
    )


def looks_like_post(table: Table, cells: Row) -> bool:
    """Whether most of the columns that make a post are filled."""
    there = [n for n in _TELLING if n in table.heads]
    filled = [n for n in there if any(h.column in cells for h in table.heads[n])]
    return len(filled) >= max(2, min(5, len(there) - 2))


def _lone(columns: Columns, column: int, cell: Cell) -> Kind | None:
    """What a row with one cell is; None where it is a post in doubt, or nothing special."""
    if cell.kind != "text":
        return None
    text = line(str(cell.value))
    if is_same_as_above(text):
        return None
    if columns.names_site:
        return _lone_beside_sites(columns, column, text)
    in_front = column not in columns.claimed - columns.beside or column == min(columns.claimed)
    if not in_front and column not in columns.of("post_code"):
        return None
    if column in columns.of("post_code") and _may_be_post(text):
        return None
    return what_a_lone_text_is(text)


def _lone_beside_sites(columns: Columns, column: int, text: str) -> Kind | None:
    """A lone text in a table that has a column for the site: a site's own row, a remark, or a post in doubt."""
    if column in columns.site:
        if (column, folded(text)) in columns.codes or column not in columns.of("site_code", "site_name"):
            return "block"
        kind = what_a_lone_text_is(text)
        if kind == "section" and ground_in(text) and columns.only_places(column):
            return "section"
        return "block" if kind in ("section", "doubtful") else kind
    in_front = column not in columns.claimed or column == min(columns.claimed)
    return "remark" if column in columns.beside or (in_front and what_a_lone_text_is(text) == "remark") else None


_CODE = re.compile(r"[^\W\d_]{0,3}[ .#-]?\d{1,4}[^\W\d_]?|[^\W\d_]{1,2}")


def _may_be_post(text: str) -> bool:
    """Whether a text is like a post's name: `N`, `P9`, `north pole`."""
    if _GROUND.search(text):
        return False
    return bool(group_label(text)) or posts_named(text) is not None or _CODE.fullmatch(text) is not None


_PLACE = re.compile(PLACES_WITHIN, re.IGNORECASE)

_REMARK = re.compile(REMARKS, re.IGNORECASE | re.DOTALL)

_REMARK_ELSEWHERE = re.compile(REMARKS_ELSEWHERE, re.IGNORECASE | re.DOTALL)
_GREETING = re.compile(GREETINGS, re.IGNORECASE | re.DOTALL)
_CLOSING = re.compile(CLOSINGS, re.IGNORECASE)
_GROUND = re.compile(GROUND_WORDS, re.IGNORECASE)
_BESIDE_A_SITE = re.compile(rf"(?:{BESIDE_A_SITE})\s*:.*", re.IGNORECASE)
_LABELLED = re.compile(r"[^:]*:\s+\S.*")

_SMALL = frozenset(
    (
        "of",
        "the",
        "and",
        "at",
        "in",
        "on",
        "de",
        "la",
        "le",
        "du",
        "des",
        "di",
        "da",
        "der",
        "die",
        "und",
        "y",
        "e",
        "et",
        "do",
        "do",
        "dos",
        "das",
        "del",
        "el",
        "los",
        "las",
        "en",
        "les",
        "à",
        "au",
        "aux",
        "sur",
        "sous",
        "lès",
        "lez",
        "en",
        "del",
        "della",
        "delle",
        "dei",
        "degli",
        "dello",
        "al",
        "alla",
        "sul",
        "in",
        "den",
        "dem",
        "am",
        "im",
        "an",
        "bei",
        "zu",
        "zum",
        "zur",
        "von",
        "vom",
        "auf",
        "a",
        "o",
        "as",
        "os",
        "no",
        "na",
        "com",
        "con",
    )
)


def closes_a_letter(cells: Row) -> bool:
    """Whether a row of one cell ends a letter, so that a name below it is the sender's: `Regards`."""
    cell = next(iter(cells.values()))
    return cell.kind == "text" and _CLOSING.fullmatch(line(str(cell.value))) is not None


def what_a_lone_text_is(text: str) -> Kind:
    """`section` where a text plainly names a ground, `place` a part of one, `remark` a remark, `doubtful` none of them."""
    words = text.split()
    sentence = len(words) > 8 or len(text) > 60 or (text.endswith(".") and len(words[-1]) > 5)
    if not sentence and ground_in(text) == text and not any(c.isdigit() for c in text):  # `Old Depot Park`
        return "section"
    if not sentence and begins_like_a_name(text):
        return "section" if text.split()[0].casefold() in ("old", "new") and is_place_name(text) else "doubtful"
    if sentence or shape_said(text) or _REMARK.fullmatch(text) or _REMARK_ELSEWHERE.fullmatch(text) or _GREETING.fullmatch(text):
        return "remark"
    if _BESIDE_A_SITE.fullmatch(text):  # `Custodian: Al Hart`
        return "remark"
    if _GROUND.search(text):
        return "section"
    if _PLACE.fullmatch(text):
        return "place"
    if text.endswith(":") or _LABELLED.fullmatch(text):  # a label of a form, or a name
        return "doubtful"
    named = all(w[0].isupper() or w[0].isdigit() or w[0] in "#(" or w.casefold() in _SMALL for w in words)
    return "section" if named and re.search(r"[^\W\d_]{3}", text) else "doubtful"
