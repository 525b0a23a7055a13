"""Titles: a label and its value above a table, in one cell, in two, or below each other."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.grounds import ground_in, without_count
from pipeline.intake.layout.place_names import is_on_a_ground, is_place_name
from pipeline.intake.layout.record import Heading, Stated
from pipeline.intake.survey.headings import FAINT, WEAK, Claim, claim, fold
from pipeline.intake.survey.spellings import word_of
from pipeline.reading.book import Cell
from schemas.grounds import NO_GROUND, ONLY_IN_TITLES
from schemas.title_labels import ASSOCIATIONS, KINDS_OF_GROUND, LABELS_OF_PLACES, NUMBER_OF_A_LABEL, OF_PLAYERS, STOPS

OF_A_SITE = ("site_code", "site_name", "customer", "site_kind")
IN_TITLES = (*OF_A_SITE, "surveyed_on")
_CAN_MEAN_A_PERSON = frozenset(("name", "location", "account"))
_ONLY_IN_TITLES = frozenset(fold(w) for w in ONLY_IN_TITLES)
_LONGEST = 200


@dataclass(frozen=True, slots=True)
class Pair:
    """A label with its value: the column, how sure the label is, and the value with its cell."""

    claim: Claim
    stated: Stated


@dataclass
class Title:
    """What the titles above a table say, by column; a new label of a site ends all of the old title's."""

    values: dict[str, Pair] = field(default_factory=dict)
    doubtful: set[str] = field(default_factory=set)  # labels with two values
    _open: bool = False

    def close(self) -> None:
        """Posts have come: the next label of a site begins a title of its own."""
        self._open = False

    def take(self, pairs: Iterable[Pair]) -> bool:
        """Take a row of labels; whether they begin a new title."""
        listed = list(pairs)
        new = not self._open and any(p.claim.name in OF_A_SITE for p in listed)
        if new:
            self.values, self.doubtful = {}, set()
        self._open = self._open or new
        for pair in listed:
            self._add(pair)
        return new

    def _add(self, pair: Pair) -> None:
        """A surer label wins; of two that are as sure and differ, none."""
        name, before = pair.claim.name, self.values.get(pair.claim.name)
        if before is None or pair.claim.strength > before.claim.strength:
            self.values[name] = pair
        elif pair.claim.strength == before.claim.strength and _says(pair) != _says(before):
            self.doubtful.add(name)

    def stated(self) -> dict[str, Stated]:
        """What holds for the table below."""
        return {n: p.stated for n, p in self.values.items() if n not in self.doubtful}


def _says(pair: Pair) -> str:
    return fold(str(pair.stated.cell.value))


def label(text: str, value: str = "") -> Claim | None:
    """The claim of a title's label, or None; words that can as well be a person's are none but before a ground's name."""
    bare = text.strip().rstrip(":=").strip()
    found = claim(bare) if bare and len(bare) <= 40 else None
    if found is None and _labels_a_ground(bare, value):
        return Claim("site_name", "", WEAK)
    if _OF_PLACES.fullmatch(bare) and not ground_in(value) and _is_a_place(value):
        return Claim("site_name", "", FAINT)
    person = fold(bare) in _CAN_MEAN_A_PERSON and (not ground_in(value) or is_on_a_ground(value))
    return found if found and found.name in IN_TITLES and not person else None


_OF_PLACES = re.compile(LABELS_OF_PLACES, re.IGNORECASE)
_ASSOCIATION = re.compile(ASSOCIATIONS, re.IGNORECASE)
_OF_PLAYERS = re.compile(OF_PLAYERS, re.IGNORECASE)
_KIND_OF_GROUND = re.compile(KINDS_OF_GROUND, re.IGNORECASE)
_NUMBERED = re.compile(rf"\s*(?:{STOPS}){NUMBER_OF_A_LABEL}(?=\s*:\s*\S)", re.IGNORECASE)
"""`Stop 2: Cedar Bend`: the number is the label's, and no part of the name."""


_MANY = re.compile(rf"\b(?:{NO_GROUND})\b", re.IGNORECASE)


_PERSON = re.compile(r"\b(?:[A-Z]|Mrs?|Ms|Dr|Rev|Fr|Sr|Coach|Pastor)\.|\b(?:Mrs?|Ms|Dr|Coach|Pastor) |,|@|\d{3}", re.IGNORECASE)


def _is_a_place(value: str) -> bool:
    """Whether a value is the name of a place of two words, no person, and no town with its state."""
    return len(value.split()) > 1 and not _PERSON.search(value) and not _MANY.search(value) and is_place_name(value)


def _labels_a_ground(bare: str, value: str) -> bool:
    """Whether words are a label of a ground in a title alone; an association of players is none."""
    if _ASSOCIATION.fullmatch(bare):
        return not _OF_PLAYERS.search(value)
    return fold(bare) in _ONLY_IN_TITLES or _KIND_OF_GROUND.fullmatch(bare) is not None


def named_in(cells: Row) -> list[Pair]:
    """The one ground that a title names in words, where none of its cells is a label."""
    listed = list(cells.values())
    named = [(i, name) for i, c in enumerate(listed) if c.kind == "text" and (name := ground_in(str(c.value)))]
    if len(named) != 1:
        return []
    i, name = named[0]
    cell, before = listed[i], str(listed[i - 1].value).rstrip(" :") if i else ""
    of_site = i and any(p.claim.name in OF_A_SITE for p in _in_one_cell(listed[i - 1]))
    if before and not of_site and not ground_in(f"{before}: {cell.value}"):
        return []
    return [Pair(Claim("site_name", "", 0), Stated(replace(cell, value=name), Heading("title", "", ""), cell.address, "title"))]


def labels_in(cells: Row, below: Row | None = None) -> list[Pair]:
    """Every label of a row with its value: in its own cell, in the next one, or in the cell below where labels stand in a row."""
    found: list[Pair] = []
    columns = list(cells)
    i = 0
    while i < len(columns):
        n, i = columns[i], i + 1
        cell = cells[n]
        if cell.kind != "text" or len(str(cell.value)) > _LONGEST:
            continue
        inside = list(_in_one_cell(cell))
        found += inside
        value = cells[columns[i]] if i < len(columns) else None
        meant = None if inside else label(str(cell.value), str(value.value) if value else "")
        if meant is None:
            continue
        if value is not None and not _is_label(meant, value):
            found.append(_pair(meant, cell, value))
            i += 1
        elif below and n in below and not _is_label(meant, below[n]):
            found.append(_pair(meant, cell, below[n]))
    return found


def whole_row_of_labels(cells: Row) -> bool:
    """Whether a row says nothing but labels with their values: `School: Oak Park`, or `School`, `Oak Park` in two cells."""
    listed = list(cells.values())
    i = 0
    while i < len(listed):
        cell = listed[i]
        if cell.kind != "text":
            return False
        if any(_in_one_cell(cell)):
            i += 1
            continue
        meant = label(str(cell.value), str(listed[i + 1].value) if i + 1 < len(listed) else "")
        if meant is None or i + 1 >= len(listed) or _is_label(meant, listed[i + 1]):
            return False
        if listed[i + 1].kind != "text" and meant.name != "surveyed_on":
            return False
        i += 2
    return bool(listed)


def _is_label(meant: Claim, value: Cell) -> bool:
    """Whether the cell beside a label is a label too, and not its value (`Site kind`, `School`)."""
    if value.kind != "text" or (meant.name == "site_kind" and word_of("site_kind", str(value.value))):
        return False
    return label(str(value.value)) is not None or any(_in_one_cell(value))


def _in_one_cell(cell: Cell) -> Iterator[Pair]:
    """Labels and values within one cell: `School: Elm Street`, `School: Elm Street  Date: 3 May 2026`."""
    text = line(str(cell.value))
    pieces = re.split(r"\s*[:=：]\s*|\s+[-–—]\s+", text)
    if len(pieces) < 2:
        return
    meant = Claim("site_name", "", WEAK) if _NUMBERED.match(text) else label(pieces[0], pieces[1])
    for n, piece in enumerate(pieces[1:], 1):
        value, following = (piece, None) if n == len(pieces) - 1 else _ends_in_label(piece)
        value = value.strip(" ;,|")
        if meant and value:
            yield _pair(meant, cell, replace(cell, value=value))
        meant = following


def _ends_in_label(piece: str) -> tuple[str, Claim | None]:
    """A value with the next label at its end: `Elm Street  Date`."""
    words = piece.split()
    for n in range(min(4, len(words) - 1), 0, -1):
        if found := label(" ".join(words[-n:])):
            return " ".join(words[:-n]), found
    return piece, None


def _pair(meant: Claim, cell: Cell, value: Cell) -> Pair:
    """A label with its value; `Site: Elm Street School` names the site, it is no code."""
    words = str(value.value).split()
    if meant.name == "site_code" and meant.strength == WEAK and len(words) > 1 and value.kind == "text":
        meant = Claim("site_name", meant.unit, meant.strength)
    if meant.name == "site_name" and value.kind == "text":
        value = replace(value, value=without_count(str(value.value)))
    return Pair(meant, Stated(value, Heading(line(str(cell.value)), "", cell.address), value.address, "title"))


def where_stated(values: Mapping[str, Stated], name: str) -> str:
    """What a column says, as it is compared; '' where it says nothing."""
    return fold(str(values[name].cell.value)) if name in values else ""
