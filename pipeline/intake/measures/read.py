"""One cell of a kind to a measure; a list of lengths."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from functools import lru_cache

from pipeline.intake.measures import slopes
from pipeline.intake.measures.doubts import explain, no_unit, unreadable
from pipeline.intake.measures.forms import UnclearFormError, Worth, match
from pipeline.intake.measures.measure import Doubt, Measure
from pipeline.intake.measures.text import LONGEST, plain, tidied
from pipeline.intake.measures.tokens import tokens
from pipeline.intake.measures.twice import one_twice
from pipeline.units import FEET_INCHES, Unit, si, unit_of

_MOST = Fraction(10) ** 12
"""No value of any kind here is as great in SI; beyond it a number is a slip."""


@lru_cache(maxsize=65536, typed=True)
def read_measure(value: str | int | float, kind: str, heading_unit: str = "", more: tuple[str, ...] = ()) -> Measure | Doubt:
    """One measure of `kind` in SI, its unit from the cell, else from the heading.

    `kind` is length, angle, speed, mass, moment, force, pressure, number or percent (which stays
    per cent); `more` are further words to pass over. Never raises and never guesses: whatever has
    not one meaning is a Doubt. One length said twice in two units that agree is the first of them. A
    number from a spreadsheet counts with the 15 digits that it shows.
    """
    kind = "length" if kind in ("lengths", "pipe") else kind
    found = _once(value, kind, heading_unit, more)
    if isinstance(found, Measure) or not isinstance(value, str) or kind != "length":
        return found
    text = as_text(value)
    twice = one_twice(value, tidied(text), kind, heading_unit, lambda t, unit: _once(t, kind, unit, more)) if text else None
    return twice or found


def _once(value: str | int | float, kind: str, heading_unit: str, more: tuple[str, ...]) -> Measure | Doubt:
    """One measure, said once."""
    text = as_text(value)
    if text is None:
        return unreadable(value, kind, "is not a measure")
    heading = unit_of(heading_unit, kind)
    if kind == "number" and heading is None:
        heading = _NUMBER

    def reads(reading: str) -> bool:
        try:
            other = _worth(reading, kind, heading, heading_unit, more)
        except UnclearFormError:
            return False
        return other is not None and isinstance(_measure(reading, kind, other), Measure)

    try:
        worth = _worth(tidied(text), kind, heading, heading_unit, more)
    except UnclearFormError as e:
        if e.no_unit:
            return no_unit(value, kind, e.readings[0], _why_no_unit(heading_unit, kind), reads)
        return unreadable(value, kind, e.why, tuple(r for r in e.readings if reads(r)))
    if worth is None:
        return explain(value, tokens(tidied(text), kind, more), kind, heading, heading_unit, reads)
    return _measure(value, kind, worth)


def as_text(value: object) -> str | None:
    """The text of a cell's value; None for what is no number and no text, or is beyond measure."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return None
    if isinstance(value, str):
        return value if len(value.strip()) > 0 and len(value) <= LONGEST else None
    if not math.isfinite(value) or abs(value) >= _MOST or (value != 0 and abs(value) < 1e-12):
        return None
    return _digits(value)


def _digits(value: float) -> str:
    """A number as the 15 digits that a spreadsheet shows, without a power of ten."""
    shown = format(value, ".15g")
    if "e" in shown:
        shown = format(value, ".15f").rstrip("0")
    return shown


_NUMBER = Unit("", "number", "", (), metric=True)
"""What a plain number counts in."""


def _worth(text: str, kind: str, heading: Unit | None, heading_unit: str, more: tuple[str, ...]) -> Worth | None:
    """The worth of plain text; None where no form has it."""
    slope = slopes.match(text) if kind == "angle" else None
    return slope or match(tokens(text, kind, more), heading, heading_unit)


def _why_no_unit(heading_unit: str, kind: str) -> str:
    """Why a bare number has no unit."""
    if heading_unit == FEET_INCHES:
        return "is one number under a heading of feet and inches"
    if heading_unit:
        return f"has no unit, and {heading_unit} in its heading is no unit of {kind}"
    return "has no unit, and its heading shows none"


def _measure(value: object, kind: str, worth: Worth) -> Measure | Doubt:
    unit = worth.unit
    done = unit is None or unit.kind == "number"
    if unit is not None and kind == "number" and unit.kind == "percent":
        return Measure(worth.value * si(unit) / 100, worth.short)
    result = worth.value if done or unit is None else worth.value * si(unit)
    if abs(result) >= _MOST:
        return unreadable(value, kind, "is far too large")
    if kind != "angle":
        return Measure(result, worth.short)
    slope = unit is None or unit.kind == "slope"
    return Measure(math.atan(float(result)) if slope else float(result), "slope" if slope else worth.short)


_AND = re.compile(r"\s+and\s+|\s*&\s*", re.IGNORECASE)
_SLASH = re.compile(r"\s*/\s*")
_COMMA = re.compile(r"(?<=[^0-9\s]),\s+")


def read_lengths(value: str | int | float, heading_unit: str = "") -> tuple[Measure, ...] | Doubt:
    """One or several lengths: `;` or a new line between; `and`, `/` or a comma only where each has its own unit."""
    if not isinstance(value, str):
        single = read_measure(value, "length", heading_unit)
        return single if isinstance(single, Doubt) else (single,)
    if len(value) > 10 * LONGEST:
        return unreadable(value, "length", "is too long for a list of lengths")
    parts = [p for p in re.split(r"[;\uff1b\n\r\u2028]", value) if p.strip()]
    out: list[Measure] = []
    for part in parts:
        found = _some_lengths(part, heading_unit)
        if isinstance(found, Doubt):
            return found if len(parts) == 1 else Doubt(found.code, found.message, _whole(parts, part, found), found.readings)
        out.extend(found)
    return tuple(out) if out else unreadable(value, "length", "holds no length")


def _whole(parts: list[str], part: str, doubt: Doubt) -> str:
    """The whole list with the doubtful part replaced, so that it can be pasted over the cell."""
    if len(doubt.readings) != 1 or doubt.estimate:
        return doubt.suggestion
    return "; ".join(doubt.readings[0] if p is part else p.strip() for p in parts)


def _some_lengths(part: str, heading_unit: str) -> tuple[Measure, ...] | Doubt:
    """What stands between two semicolons: one length, or several parted by words that are clear."""
    text = plain(part)
    if re.fullmatch(r"[0-9]+ ?/ ?[0-9]+", text) and heading_unit:
        first, second = (t.strip() for t in text.split("/"))
        return unreadable(part, "length", "may be a fraction or two lengths", (f"{first}; {second}", f"{text} {heading_unit}"))
    alone = read_measure(part, "length", heading_unit)
    if isinstance(alone, Measure):
        return (alone,)
    for splitter in (_AND, _SLASH, _COMMA):
        pieces = [p for p in splitter.split(text) if p]
        own = [read_measure(p, "length") for p in pieces]
        found = tuple(m for m in own if isinstance(m, Measure))
        if len(pieces) > 1 and len(found) == len(pieces):
            return found if _one_system(found) else alone
    if re.fullmatch(r"[0-9.½ ]+(?:(?:, | and | ?& ?)[0-9.½ ]+)+", text):
        listed = "; ".join(_AND.sub(", ", text).split(", "))
        return unreadable(part, "length", "may be one length or several", (listed,))
    return alone


def _one_system(found: tuple[Measure, ...]) -> bool:
    """Whether all are in feet and inches or all in one metric unit; else they may be one length said twice."""
    units = {m.unit for m in found}
    return len(units) == 1 or units <= {FEET_INCHES, "ft", "in", "yd"}
