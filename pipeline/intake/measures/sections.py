"""Sizes of more than one number: size by wall, equal sides of a square post, structural labels."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from pipeline.intake.measures.doubts import could, instead, unreadable
from pipeline.intake.measures.measure import Doubt, Measure
from pipeline.intake.measures.read import read_measure
from pipeline.intake.measures.text import quoted
from schemas.lengths import INCH_EXACT

_LABEL = re.compile(r"(?P<label>HSS|TS|CHS|SHS|RHS|RO|□)\s*[-:]?\s*(?=[0-9.,Ø])", re.IGNORECASE)
_BEHIND = re.compile(r"(?P<rest>[0-9](?:.*[0-9\"])?) ?(?P<label>HSS|CHS|SHS)", re.IGNORECASE)
_BY = re.compile(r"\s*(?:(?<![xX])[xX](?![xX])|\*|(?<![a-z])(?:by|por|par|per|mal)(?![a-z]))\s*(?=[0-9.,Ø])", re.IGNORECASE)
_WALL_WORDS = "wall|wall thickness|thk|thick|sp|spessore|esp|espesor|espessura|ép|ep|épaisseur|epaisseur|wandstärke|wanddicke|ws"
_WALL_SAID = re.compile(
    rf"\s*[,;(]?\s*(?<![a-z])(?:{_WALL_WORDS})\.?\s*[:=]?\s*(?P<behind>[.,]?[0-9][^()]*)\)?"
    rf"|\s*(?:[;(]|,(?![0-9]))\s*(?P<before>[.,]?[0-9][^()]*?)\s*(?:{_WALL_WORDS})\.?\)?",
    re.IGNORECASE,
)
"""A wall that its word tells, behind the size: `3.5" OD, 0.216" wall`, `Ø 88,9 mm, esp. 3,2 mm`."""
_OF_LABEL = {"CHS": "round", "RO": "round", "SHS": "square", "□": "square"}
_IN_INCHES = ("HSS", "TS")
_IN_MILLIMETRES = ("CHS", "SHS", "RO")
"""Labels of EN 10210 and EN 10219, which are in millimetres (memory)."""
_WALL_PART = 5
"""A wall is less than this part of the size. Source: contract section 2; AISC Manual table 1-12, 1-13: all are (memory)."""
_MOST_WALL = INCH_EXACT
_MOST_INCHES = 20
"""AISC's widest round section is 20 in; a greater number is in millimetres. Source: AISC Manual table 1-13 (memory)."""


def read_section(value: object, text: str, heading_unit: str, shape: str, more: tuple[str, ...]) -> Measure | Doubt | None:
    """The size in `88.9 x 3.2 mm`, `4 x 4 in`, `4x4x1/4`, `HSS3.500x0.216`; None where the text is not of that form.

    Equal sides are one size, of a square post; a second number less than a fifth of the first is the wall. A label of
    AISC is in inches; elsewhere a number without a unit takes the unit of the others, else the heading's. `shape` is
    what words in the cell say.
    """
    text = _with_wall(text)
    if behind := _BEHIND.fullmatch(text):
        text = f"{behind['label']} {behind['rest']}"
    m = _LABEL.match(text)
    label = m["label"].upper() if m else ""
    pieces = [p.strip() for p in _BY.split(text[m.end() :] if m else text)]
    if not 2 <= len(pieces) <= 3 and not (label and len(pieces) == 1):
        return None
    unit = _unit(pieces, heading_unit, label, more)
    found = [read_measure(p, "length", unit, more) for p in pieces]
    sizes = [f for f in found if isinstance(f, Measure)]
    if len(sizes) < len(found):
        return _without_unit(value, pieces, more) if not unit else None
    return _section(value, sizes, _OF_LABEL.get(label, shape), label)


def _with_wall(text: str) -> str:
    """The text with the wall behind its size as in `88.9 mm x 3.2 mm`, where a word tells that it is one."""
    for m in _WALL_SAID.finditer(text):
        if m.end() == len(text) and any(c.isdigit() for c in text[: m.start()]):
            return f"{text[: m.start()]} x {m['behind'] or m['before']}"
    return text


def _unit(pieces: list[str], heading_unit: str, label: str, more: tuple[str, ...]) -> str:
    """The unit of numbers that have none of their own ('' = none is said)."""
    own = [read_measure(p, "length", "", more) for p in pieces]
    units = dict.fromkeys(m.unit for m in own if isinstance(m, Measure))
    if len(units) == 1:
        return next(iter(units))
    first = read_measure(pieces[0], "length", "in", more)
    if label in _IN_INCHES and isinstance(first, Measure) and first.value <= _MOST_INCHES * INCH_EXACT:
        return "in"
    if label in _IN_MILLIMETRES and not heading_unit and isinstance(first, Measure) and first.value > _MOST_INCHES * INCH_EXACT:
        return "mm"
    return heading_unit if label not in _IN_INCHES or heading_unit in ("mm", "cm") else ""


def _section(value: object, sizes: list[Measure], shape: str, label: str) -> Measure | Doubt:
    """Size, shape and wall from two or three lengths."""
    size, last = Fraction(sizes[0].value), Fraction(sizes[-1].value)
    sides = sizes[:2] if len(sizes) == 3 or (len(sizes) == 2 and not _is_wall(size, last)) else sizes[:1]
    if len(sides) == 2 and sides[0].value != sides[1].value:
        return unreadable(value, "pipe", "is wider one way than the other: neither a round nor a square size")
    if len(sides) == 2 and shape == "round":
        return unreadable(value, "pipe", "gives two sides and speaks of a round post")
    shape = "square" if len(sides) == 2 else shape or ("round" if label and len(sizes) == 2 else "")
    if len(sides) == len(sizes):
        return replace(sizes[0], shape=shape)
    if not _is_wall(size, last):
        return unreadable(value, "pipe", "holds more than one measure, and the last is no wall")
    millimetres = f"{float(last * 1000):.4g} mm"
    remarks = (f"{quoted(value)} is a size and a wall of {millimetres}.",)
    return replace(sizes[0], shape=shape, wall=last, remarks=remarks)


def _is_wall(size: Fraction, wall: Fraction) -> bool:
    return 0 < wall * _WALL_PART < size and wall <= _MOST_WALL


def _without_unit(value: object, pieces: list[str], more: tuple[str, ...]) -> Doubt | None:
    """`4 x 4`: numbers without a unit, with the units that a post could have."""
    if not all(isinstance(read_measure(p, "length", "in", more), Measure) for p in pieces):
        return None
    readings = []
    plain_numbers = not any(c.isalpha() for p in pieces for c in p)
    for unit in ("in", "mm", "cm"):
        first = read_measure(pieces[0], "length", unit)
        if plain_numbers and isinstance(first, Measure) and Fraction(3, 100) <= first.value <= Fraction(1, 2):
            readings.append(f"{' x '.join(pieces)} {unit}")
    fit = tuple(readings)
    message = f"{quoted(value)} has no unit, and its heading shows none.{could(fit)}"
    return Doubt("NO_UNIT", message, instead(fit, "pipe"), fit)
