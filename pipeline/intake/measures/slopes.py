"""Slopes and angles that are more than a number with a unit."""

from __future__ import annotations

import re
from fractions import Fraction

from pipeline.intake.measures.forms import Q, UnclearFormError, Worth, quantity
from pipeline.intake.measures.tokens import Token, shape, tokens
from pipeline.units import si, unit_of
from schemas.measure_words import PASSED_OVER

_PER = {"per", "in", "over", "to", "/", ":", "pro", "par", "por"}
_RATIO = re.compile(r"([0-9]+(?:[.,][0-9]+)?) ?(?::| in ) ?([0-9]+(?:[.,][0-9]+)?)", re.IGNORECASE)
_ARC = re.compile(r"([0-9]+) ?(?:°|deg) ?([0-9]+(?:[.,][0-9]+)?) ?'(?: ?([0-9]+(?:[.,][0-9]+)?) ?\")?", re.IGNORECASE)
_MARKS = re.compile(r"[0-9.,/ ]+['\"]")
_WORDS = re.compile(rf"\b(?:{'|'.join(sorted(PASSED_OVER['angle'], key=len, reverse=True))})\b\s*[:=]?", re.IGNORECASE)
_ARTICLE = re.compile(r"\b(per|to|in|over) (?:a|an|the)\b|-(per)-", re.IGNORECASE)
_SHAPE = re.compile(rf"({Q})U([x/:U])({Q})?U")


def match(text: str) -> Worth | None:
    """The worth of `1:100`, `1 in 100`, `1/4 in per ft`, `3 mm in 1 m`, `1°30'`; None where it is none of these."""
    text = _WORDS.sub(" ", text).strip()
    if m := _RATIO.fullmatch(text):
        return _ratio(_plain(m[1]), _plain(m[2]))
    if m := _ARC.fullmatch(text):
        return _arc(m)
    if _MARKS.fullmatch(text):
        number = text[:-1].strip()
        raise UnclearFormError("may be minutes or seconds of arc, feet or inches", (f"{number} deg",))
    return _two_lengths(tokens(_ARTICLE.sub(lambda m: f" {m[1] or m[2]} ", text), "length"))


def _ratio(rise: Fraction, run: Fraction) -> Worth:
    """Rise to run; a post leans less than one in one."""
    if rise >= run:
        raise UnclearFormError("is steeper than one in one")
    return Worth(rise / run, None, "slope")


def _arc(m: re.Match[str]) -> Worth:
    """Degrees, minutes and seconds of arc."""
    minutes, seconds = _plain(m[2]), _plain(m[3] or "0")
    if minutes >= 60 or seconds >= 60:
        raise UnclearFormError("has sixty minutes or seconds, or more, beside degrees")
    return Worth(Fraction(int(m[1])) + minutes / 60 + seconds / 3600, unit_of("deg", "angle"), "deg")


def _two_lengths(found: tuple[Token, ...]) -> Worth | None:
    """A length for a length: `1/4" per ft`, `1 in in 4 ft`, `10 mm/m`."""
    m = _SHAPE.fullmatch(shape(found))
    if not m or found[m.start(2)].text.casefold() not in _PER:
        return None
    units = [t.unit for t in found if t.unit]
    upper, lower = units[0], units[-1]
    rise = quantity(found[m.start(1) : m.end(1)], upper, True) * si(upper)
    times = quantity(found[m.start(3) : m.end(3)], lower, True) if m[3] else Fraction(1)
    if rise >= times * si(lower):
        raise UnclearFormError("is steeper than one in one")
    return Worth(rise / (times * si(lower)), None, "slope")


def _plain(text: str) -> Fraction:
    return Fraction(text.replace(",", "."))
