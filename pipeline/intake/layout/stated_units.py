"""Units that a sheet states once for all its cells: `All measurements in inches`, `Sizes in inches, heights in feet`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from pipeline.intake.layout.grid import Row
from pipeline.intake.layout.record import Record, Stated
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.headings import claim
from pipeline.units import FEET_INCHES, unit_of
from schemas.measure_words import PASSED_OVER
from schemas.stated_lines import ALL_OF_THEM, ALL_SIZES, EVERY_MEASURE, IN_STATEMENTS, UNLESS, WHERE_MEASURED
from schemas.survey import SURVEY

_LENGTHS = frozenset(c.name for c in SURVEY.columns if c.kind in ("length", "lengths", "pipe"))
_EVERY = frozenset(fold(w) for w in EVERY_MEASURE)
_PASSED_OVER = frozenset(fold(w) for w in IN_STATEMENTS)
_SIZES = frozenset(fold(w) for w in ALL_SIZES)
_ALL = frozenset(fold(w) for w in ALL_OF_THEM)
_UNLESS = re.compile(rf"\b(?:{UNLESS})\b.*$", re.IGNORECASE)
_CLAUSE = re.compile(
    r"[;()\[\]\n]|[.,](?=\s|$)|\s[-–—]\s|\s(?:and|y|et|und|e|&)\s(?=\S+(?:\s\S+)?\s(?:in|en|em)\s)", re.IGNORECASE
)
_AND = re.compile(r"\s*[/&+]\s*|\s+(?:and|y|et|und|e)\s+", re.IGNORECASE)
_FOR = re.compile(r"(?:in |en |em )?(\S+) (?:for|para|pour|für|per) (\S.*)", re.IGNORECASE)
"""`inches for sizes`."""
_WITHIN = re.compile(r"(\S.*?) (?:in|en|em) (\S+) (\S.*)", re.IGNORECASE)
_UNIT_WORD = r"mm|cm|m|millimet(?:re|er)s?|centimet(?:re|er)s?|met(?:re|er)s?|inch(?:es)?|feet|ft"
_UNIT_APART = re.compile(
    rf"(?<=\w)(?:,\s*(?:given |shown )?in ({_UNIT_WORD})(?=\.?\s*(?:$|[.;,]\s))|"
    rf"\s*\((?:in )?({_UNIT_WORD})\)(?=\s*(?:$|[.;,])))",
    re.IGNORECASE,
)
"""`Widths are outside, in mm`, `heights are from the ground (m)`: a unit behind a comma or in a bracket, but for `all in mm`."""
_LAST = re.compile(r"(\D+) (mm|cm|m|ft|in|inches|feet)\.?", re.IGNORECASE)
_OUTSIDE = re.compile(
    r"(?: are| is| all| taken| measured)*(?: on the)? (?:outside|o\.?d\.?|outside to outside|across),?(?= in )", re.IGNORECASE
)
"""`Sizes are outside, in inches.`"""
_LONGEST, _MOST_CELLS = 300, 3

_WHERE = re.compile(r"(.*? (?:in|en|em) [^\W\d_]+\.?),? (.+)", re.IGNORECASE)

Units = Mapping[str, str]
"""The unit of each column of lengths that a sheet states a unit for."""


def units_of(rows: Sequence[tuple[int, Row]]) -> Units:
    """The units that lines outside the tables of a sheet state, by its `rows`; a line about one column goes before one about all.

    Two lines that differ about the same columns state nothing.
    """
    found: dict[str, set[str]] = {}
    for _, cells in rows:
        texts = [str(c.value) for c in cells.values() if c.kind == "text" and len(str(c.value)) <= _LONGEST]
        if len(texts) < len(cells) or len(cells) > _MOST_CELLS:
            continue
        stated = [pairs for text in texts if (pairs := list(_stated(text)))]
        for name, unit in stated[0] if len(stated) == 1 else ():  # several beside each other are headings
            found.setdefault(name, set()).add(unit)
    units = {name: next(iter(said)) for name, said in found.items() if len(said) == 1}
    every = units.pop("", "")
    if "post_height" in units and "ring_heights" not in found:  # `Heights in feet`
        units["ring_heights"] = units["post_height"]
    return {n: every for n in sorted(_LENGTHS) if every and n not in found} | units


def units_stated(text: str) -> Units:
    """The units that one line states, by column; '' is all of them."""
    return dict(_stated(text)) if len(text) <= _LONGEST else {}


def _stated(text: str) -> Iterator[tuple[str, str]]:
    """Columns with the unit that a text states for them; column '' is all of them.

    A line of which a part is not understood states nothing.
    """
    text = _UNIT_APART.sub(lambda m: f" in {m[1] or m[2]}", text)
    label, colon, rest = text.partition(":")
    whole = heading_unit(_UNLESS.sub("", text).strip())[1]
    prefixed = colon and rest.strip() and _column(label) == "" and not whole  # `Measures: sizes in mm, ...`
    clauses = _CLAUSE.split(_OUTSIDE.sub("", rest if prefixed else text))
    stated = [_in_clause(_beside(_UNLESS.sub("", clause).strip(" ,:*!"))) for clause in clauses]
    if None not in stated:
        yield from (pair for pairs in stated if pairs for pair in pairs)


def _in_clause(said: str) -> list[tuple[str, str]] | None:
    """What one clause states, [] where it has no unit, None where it has one and cannot be understood."""
    turned, within = _FOR.fullmatch(said), _WITHIN.fullmatch(said)
    bare, unit = heading_unit(f"{turned[2]} [{turned[1]}]" if turned else said)
    if not unit and within and (unit := heading_unit(f"x [{within[2]}]")[1]):  # `Heights in m above the court`
        bare = f"{within[1]} {within[3]}"
    if not unit and (last := _LAST.fullmatch(said)) and (unit := heading_unit(f"x [{last[2]}]")[1]):  # `Post heights m`
        return [] if _column(last[1]) is None else [(_column(last[1]) or "", unit)]
    if not unit or (unit != FEET_INCHES and unit_of(unit, "length") is None):
        return []
    columns = [_column(thing) for thing in _AND.split(bare)]
    if None in columns and ":" in bare:  # `Poteaux de basket : grosseurs`
        columns = [_column(thing) for thing in _AND.split(bare.rpartition(":")[2])]
    return [(name, unit) for name in columns if name is not None] if None not in columns else None


def _beside(said: str) -> str:
    """A clause without what it says of where all is measured: `sizes in mm across`, `alturas en metros desde el piso`."""
    m = _WHERE.fullmatch(said)
    rest = m[2].casefold() if m else ""
    return m[1] if m and (rest in PASSED_OVER["length"] or rest in WHERE_MEASURED) else said


def _column(thing: str) -> str | None:
    """The column of lengths that words of a statement mean, '' for all of them, None where they mean another thing."""
    every = re.findall(r"[^\W\d_]+(?:['’](?=\w))?", thing)
    words = [w for w in every if fold(w) not in _PASSED_OVER]
    if every and all(fold(w) in _EVERY for w in words or every):
        return ""
    alone = [w.removesuffix("s").removesuffix("n") if n == 0 else w for n, w in enumerate(words)]  # `Heights above the court`
    if len(words) == 1 and fold(words[0]) in _SIZES and any(fold(w) in _ALL for w in every):  # `All sizes in mm`
        return ""
    meant = (claim(" ".join(words)) or claim(" ".join(alone))) if words else None
    return meant.name if meant and meant.name in _LENGTHS else None


def with_units(record: Record, units: Units) -> Record:
    """The record, with the stated unit over each of its lengths whose heading shows none."""
    if not units:
        return record
    values = {n: _under(s, units[n]) if n in units else s for n, s in record.values.items()}
    rivals = {n: tuple(_under(s, units[n]) if n in units else s for s in them) for n, them in record.rivals.items()}
    return replace(record, values=values, rivals=rivals)


def _under(stated: Stated, unit: str) -> Stated:
    if stated.heading.unit:
        return stated
    return replace(stated, heading=replace(stated.heading, unit=unit, unit_in_title=True))
