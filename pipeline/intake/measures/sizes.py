"""The size of a post: outside, round the post, by wall, or a nominal pipe size with or without a schedule."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from pipeline.intake.measures.doubts import could, example, instead, unreadable
from pipeline.intake.measures.measure import Doubt, Measure, PipeSize
from pipeline.intake.measures.pipe_names import NOMINAL, OUTSIDE, just_pipe, names_a_pipe, pipe_size
from pipeline.intake.measures.pipes import BY_DN, BY_NPS, INCH, TWO_PIPES
from pipeline.intake.measures.read import as_text, read_measure
from pipeline.intake.measures.schedules import schedule_of
from pipeline.intake.measures.sections import read_section
from pipeline.intake.measures.text import LONGEST, quoted, tidied
from pipeline.intake.measures.twice import parts
from pipeline.units import unit_of
from schemas.measure_words import ACROSS, MADE_OF, PIPE, ROUND, ROUND_POST, ROUND_WORDS, SHAPE_WORDS, SQUARE

CIRCUMFERENCE = "circumference"
_LEAST_SIZE = 0.04  # [m] no post is thinner: a smaller size round the post cannot be meant
_MILL = Fraction(1, 100)  # a pipe's outside diameter is true to 1 %. Source: ASTM A53


def _any_of(words: Iterable[str]) -> re.Pattern[str]:
    listed = "|".join(re.escape(w).replace(r"\ ", " ") for w in sorted(words, key=len, reverse=True))
    return re.compile(rf"(?<![^\W\d_])(?:{listed})(?![^\W\d_])", re.IGNORECASE)


_ACROSS, _AROUND, _PIPE = _any_of(ACROSS), _any_of(ROUND_WORDS), _any_of(PIPE)
_NO_NAME = re.compile(r"[0-9][.,][0-9]{1,2} ?(?:mm\b|x ?[0-9.,]+ ?mm\b)", re.IGNORECASE)
"""A size in millimetres with a decimal: no pipe is called that, since DN are whole numbers."""
_MILLIMETRES = re.compile(r"(?<![0-9.,/])([0-9]{2,3}) ?mm\b", re.IGNORECASE)
_SQUARE, _ROUND_POST, _ROUND = _any_of(SQUARE), _any_of(ROUND_POST), _any_of(ROUND)


@lru_cache(maxsize=65536, typed=True)
def read_post_size(value: str | int | float, heading_unit: str = "", basis: str = "") -> Measure | PipeSize | Doubt:
    """The size in a post's size cell: a length, or a nominal pipe size with its outside diameter [m].

    `basis` is '' or one of schemas.survey.SIZE_BASES, `heading_unit` may also be NPS or DN. A length
    under the basis `circumference` is the length round the post as it stands; the caller divides by
    pi, and so it does where the measure's own `basis` says circumference. A pipe's name beside any other
    basis than nominal is a CONFLICT, and so is a DN that names two pipes. What the cell says of shape and
    wall stands in the answer.
    """
    text = as_text(value)
    if text is None or len(text) > LONGEST:
        return unreadable(value, "pipe", "is not a size")
    if isinstance(value, str) and (turned := _unit_behind_words(tidied(text))):
        text = turned
    if conflict := _conflict(value, tidied(text), basis):
        return conflict
    found = _size(value, tidied(text), heading_unit, basis)
    found = _twice(value, tidied(text), heading_unit, basis) or found
    return _of_a_size(found) if isinstance(found, Doubt) else found


_UNIT_LAST = re.compile(
    r"(?P<number>[0-9][0-9 .,/x*-]*?) ?(?P<words>(?:[a-wyz.]{2,} ?)+?)"
    r"(?: ?[,;] ?(?:all )?(?:in )?| ?\((?:all )?(?:in )?| - (?:in )?| in )"
    r"(?P<unit>inches|inch|mm|millimet(?:re|er)s|cm|centimet(?:re|er)s)\)?\.?",
    re.IGNORECASE,
)
"""`4 x 4 sq tube, inches`: a unit behind the words of a shape."""


def _unit_behind_words(text: str) -> str:
    """The text with a unit at its end put behind its number; '' where it has none there, or another one before."""
    m = _UNIT_LAST.fullmatch(text)
    if m is None or any(unit_of(w.strip("."), "length") for w in m["words"].split()):
        return ""
    return f"{m['number'].strip()} {m['unit']} {m['words'].strip()}"


def _twice(value: object, text: str, heading_unit: str, basis: str) -> Measure | PipeSize | Doubt | None:
    """A pipe said twice, by two names or by a name and its outside size: the first of them.

    `2 in (60.3 mm)` says a name first without saying so: that is asked back.
    """
    for first, second in parts(" ".join(_PIPE.sub(" ", text).split())):
        one, other = _size(first, first, heading_unit, basis), _size(second, second, "", "")
        if isinstance(one, Doubt) or isinstance(other, Doubt):
            continue
        a, b = _outside_of(one), _outside_of(other)
        named = BY_NPS.get(a / INCH) if isinstance(one, Measure) and one.unit == "in" and basis in ("", NOMINAL) else None
        if named and abs(named.size - b) < abs(a - b):
            name, near = f"NPS {named.name}", abs(named.size - b) <= b * _MILL
            if near and isinstance(other, PipeSize):
                return pipe_size(value, name, "", "", basis)
            if near:
                return unreadable(value, "pipe", "gives a pipe's name and its outside size", (name,))
            return unreadable(
                value, "pipe", "says two measures that do not agree; the first may be a pipe's name", (name, first, second)
            )
        name_again = isinstance(one, PipeSize) and isinstance(other, Measure) and other.unit == "in" and BY_NPS.get(b / INCH)
        if name_again and name_again.size == a:
            return one
        if not (isinstance(one, Measure) and isinstance(other, Measure)) and abs(a - b) <= b * _MILL:
            return one
    return None


def _outside_of(size: Measure | PipeSize) -> Fraction:
    """The size [m] as it stands."""
    return size.size if isinstance(size, PipeSize) else Fraction(size.value)


def _of_a_size(doubt: Doubt) -> Doubt:
    """The doubt about a length, said of a post's size."""
    if doubt.code == "NO_UNIT" and doubt.readings:
        fit = tuple(r for r in doubt.readings if _usual(r)) or doubt.readings
        return Doubt(doubt.code, doubt.message.removesuffix(could(doubt.readings)) + could(fit), instead(fit, "pipe"), fit)
    return replace(doubt, suggestion=example("pipe")) if doubt.suggestion == example("length") else doubt


def _usual(reading: str) -> bool:
    """Whether a reading is about as wide as a post: 30 to 500 mm, in inches or millimetres."""
    size = read_measure(reading, "length")
    return isinstance(size, Measure) and size.unit in ("in", "mm", "cm") and 0.03 <= size.value <= 0.5


def _conflict(value: object, text: str, basis: str) -> Doubt | None:
    """A size round the post where another basis is stated, or a size across where that is."""
    if basis and basis != CIRCUMFERENCE and _AROUND.search(text):
        message = f"{quoted(value)} speaks of a length round the post, but the column “Size is” says {basis}."
        return Doubt("CONFLICT", message, "Put “circumference” in “Size is”, or type the size across the post.")
    if basis == CIRCUMFERENCE and _ACROSS.search(text):
        message = f"{quoted(value)} speaks of a size across the post, but the column “Size is” says {basis}."
        return Doubt("CONFLICT", message, "Put “outside diameter” in “Size is”, or type the length round the post.")
    return None


def _is_no_name(text: str) -> bool:
    """Whether no pipe is called by the millimetres of a text: with a decimal, or none that any DN has."""
    whole = {int(m[1]) for m in _MILLIMETRES.finditer(text)}
    return _NO_NAME.search(text) is not None or (bool(whole) and not whole & {*BY_DN, *TWO_PIPES})


def _size(value: str | int | float, text: str, heading_unit: str, basis: str) -> Measure | PipeSize | Doubt:
    """The size, once its basis does not contradict it."""
    schedule, rest = schedule_of(text)
    if isinstance(schedule, Doubt):
        return schedule
    if names_a_pipe(rest) or schedule or heading_unit in ("NPS", "DN") or basis == NOMINAL:
        return pipe_size(value, rest, schedule, heading_unit, basis)
    if _PIPE.search(rest) and not OUTSIDE.search(rest) and not (_SQUARE.search(rest) or _is_no_name(rest)):
        return just_pipe(value, rest)
    rest = " ".join(_PIPE.sub(" ", rest).split())
    around = bool(_AROUND.search(rest))
    square, round_ = bool(_SQUARE.search(rest)), bool(_ROUND_POST.search(rest))
    if (square and (round_ or around)) or (around and _ACROSS.search(rest)):
        return unreadable(value, "pipe", "says two things of the post that contradict each other")
    more = (*SHAPE_WORDS, *MADE_OF, *ROUND_WORDS, *ROUND)
    shape = "square" if square else "round" if round_ or around else ""
    sides = shape or ("round" if _ROUND.search(rest) else "")
    section = read_section(value, rest, heading_unit, sides, more) if basis != CIRCUMFERENCE and not around else None
    if section is not None:
        return section
    found = read_measure(rest if isinstance(value, str) else value, "length", heading_unit, more)
    if isinstance(found, Doubt):
        return found
    if _ROUND.search(rest) and not round_ and not around and basis != CIRCUMFERENCE:
        if square or found.value / math.pi >= _LEAST_SIZE:
            return read_measure(rest, "length")
        shape = "round"
    if around or basis == CIRCUMFERENCE:
        return replace(found, shape="round", basis=CIRCUMFERENCE)
    return replace(found, shape=shape)
