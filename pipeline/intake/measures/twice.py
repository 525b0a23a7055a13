"""One measure said twice in two units: `46 in (117 cm)`, `4.57 m (15.0 ft)`, `89 mm / 3.5 in`."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from fractions import Fraction

from pipeline.intake.measures.doubts import unreadable
from pipeline.intake.measures.measure import Doubt, Measure
from pipeline.intake.measures.numerals import number
from pipeline.intake.measures.tokens import tokens
from pipeline.units import FEET_INCHES, si, unit_of

_BRACKET = re.compile(r"(?P<first>[^()\[\]]+?) ?[(\[](?P<second>[^()\[\]]*[0-9½¼¾][^()\[\]]*)[)\]] ?(?P<rest>[^()\[\]0-9]*)")
_STROKE = re.compile(r" ?/ ?")


def parts(text: str) -> Iterator[tuple[str, str]]:
    """The pairs of texts of which the second may say the first again: in brackets, or after a stroke."""
    if m := _BRACKET.fullmatch(text):
        yield f"{m['first']} {m['rest']}".strip(), m["second"].strip()
        return
    for m in _STROKE.finditer(text):
        yield text[: m.start()], text[m.end() :]


def one_twice(
    value: object, text: str, kind: str, heading_unit: str, read: Callable[[str, str], object]
) -> Measure | Doubt | None:
    """The first of two measures in different units that agree to the rounding of the coarser; None where there are not two.

    Two that do not agree are a Doubt that names both.
    """
    doubt = None
    for first, second in parts(text):
        one, other = read(first, heading_unit), read(second, "")
        if not isinstance(one, Measure) or not isinstance(other, Measure) or one.unit == other.unit:
            continue
        in_feet = {one.unit, other.unit} == {FEET_INCHES, "ft"}  # `8'6" / 9'` is two measures, however coarse the second
        coarser = Fraction(0) if in_feet else max(step(first, kind, one.unit), step(second, kind, other.unit))
        if abs(Fraction(one.value) - Fraction(other.value)) <= coarser / 2:
            return one
        doubt = doubt or unreadable(value, kind, "says two measures that do not agree", (first, second))
    return doubt


def step(text: str, kind: str, unit: str) -> Fraction:
    """The step in SI to which a measure is rounded: 1 in for `8'6"`, 1/10 ft for `15.0 ft`, 1/2 in for `3 1/2"`."""
    found = tokens(text, kind)
    last = max(i for i, t in enumerate(found) if t.letter in "idf")
    own = next((t.unit for t in found[last:] if t.unit), None) or unit_of("in" if unit == FEET_INCHES else unit, kind)
    assert own is not None
    if found[last].letter == "f":
        return si(own) / int(found[last].text.partition("/")[2])
    return si(own) * _last_place(found[last].text, own.short)


def _last_place(raw: str, unit: str) -> Fraction:
    """The worth of the last digit of a numeral: 1, or a power of ten; nothing of nought, which agrees with nought alone."""
    digits = int(re.sub(r"\D", "", raw.lower().partition("e")[0]))
    return number(raw, unit, True) / digits if digits else Fraction(0)
