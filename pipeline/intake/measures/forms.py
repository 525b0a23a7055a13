"""The table of forms: which shapes are one measure, and what each is worth."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from pipeline.intake.measures.numerals import UnclearNumberError, fraction, number
from pipeline.intake.measures.tokens import Token, shape
from pipeline.units import FEET_INCHES, Unit, si, unit_of


@dataclass(frozen=True, slots=True)
class Worth:
    """What a form is worth: a number of units, or without a unit a sum in SI, and how the unit that was used is written."""

    value: Fraction
    unit: Unit | None
    short: str


class UnclearFormError(Exception):
    """A form with several meanings, or none; `readings` say each as it should be typed; `no_unit` is a bare number."""

    def __init__(self, why: str, readings: tuple[str, ...] = (), no_unit: bool = False) -> None:
        super().__init__(why)
        self.why = why
        self.readings = readings
        self.no_unit = no_unit


Found = tuple[Token, ...]
Q = "(?:i[-j]?f|[idf])"

CHAINS: tuple[tuple[str, ...], ...] = (("yd", "ft", "in"), ("m", "cm", "mm"), ("lb", "oz"), ("kg", "g"))
"""Units that stand beside each other in one measure, each smaller than the one before."""


def quantity(found: Found, unit: Unit, own_unit: bool, alone: bool = True) -> Fraction:
    """The number that the tokens of one Q stand for, before `unit`; `alone` where no other part is beside it."""
    short = unit.short
    value, parts = Fraction(0), [t for t in found if t.letter not in "-j"]
    dash = len(parts) < len(found)
    try:
        for t in parts:
            if t.letter == "f":
                n, _, d = t.text.replace(" ", "").partition("/")
                if " " in t.text and len(parts) == 1:
                    raise UnclearNumberError("may be a fraction or two numbers", (f"{n}/{d}",))
                value += fraction(n, d, len(parts) > 1, own_unit)
            else:
                value += number(t.text, short, unit.metric)
    except UnclearNumberError as e:
        raise UnclearFormError(e.why, tuple(f"{r} {short}".strip() for r in e.readings if alone)) from None
    if dash and alone and parts[0].text.strip("0") == "":
        raise UnclearFormError("may be a range or one number", (f"{parts[-1].text} {short}".strip(),))
    return value


def one(found: Found, heading: Unit | None, heading_text: str) -> Worth:
    """`8.5 ft`, `3-1/2"`, `2,590 mm`, `8.5 (ft)`."""
    unit = _unit(next(t for t in found if t.letter == "U"))
    return Worth(quantity(tuple(t for t in found if t.letter not in "U()"), unit, True), unit, unit.short)


def hyphened(found: Found, heading: Unit | None, heading_text: str) -> Worth:
    """`8-ft`, `3 1/2-inch`: a unit in letters, tied to its number by a hyphen."""
    if not found[-1].text[0].isalpha() or not (found[-1].glued and found[-2].glued):
        raise UnclearFormError("can be read in more than one way")
    return one((*found[:-2], found[-1]), heading, heading_text)


def unit_first(found: Found, heading: Unit | None, heading_text: str) -> Worth:
    """`mm 88,9`, `kg 40`: a metric unit before its number."""
    worth = one(found, heading, heading_text)
    if not _unit(found[0]).metric:
        raise UnclearFormError("has its unit in front of the number", (f"{words(found[1:])} {words(found[:1])}",))
    return worth


def bare(found: Found, heading: Unit | None, heading_text: str) -> Worth:
    """`8.5`: the unit is the heading's."""
    if heading is None:
        raise UnclearFormError("has no unit, and its heading shows none", (words(found),), no_unit=True)
    return Worth(quantity(found, heading, heading.kind == "number"), heading, heading.short)


def feet_inches_bare(found: Found, heading: Unit | None, heading_text: str) -> Worth:
    """`8-6`, `8 6 1/2`, `8-6"` under a heading of feet and inches; elsewhere nothing."""
    if heading_text != FEET_INCHES:
        raise UnclearFormError("can be read in more than one way", _dash_readings(found, heading))
    inner = tuple(t for t in found if t.letter != "U")
    if any(t.unit and t.unit.short != "in" for t in found):
        raise UnclearFormError("can be read in more than one way")
    rest = inner[2:] if inner[1].letter == "-" else inner[1:]
    spaced_dash = inner[1].letter == "-" and not (inner[1].glued and rest[0].glued)
    if spaced_dash and rest[0].letter == "i" and int(rest[0].text) > int(inner[0].text):
        raise UnclearFormError("may be a range", (f"{inner[0].text}-{words(rest)}", f"{inner[0].text} ft", f"{words(rest)} ft"))
    return _chain(((inner[:1], _must("ft")), (rest, _must("in"))))


def chain(found: Found, heading: Unit | None, heading_text: str) -> Worth:
    """`8 ft 6 1/2 in`, `8'-6"`, `2 yd 2 ft 6 in`, `2 m 59 cm`."""
    parts: list[tuple[Found, Unit]] = []
    start = 0
    for i, t in enumerate(found):
        if t.unit:
            inner = found[start:i]
            if inner[-1].letter == "-" and t.glued and t.text[0].isalpha():
                inner = inner[:-1]
            if inner[-1].letter == "-":
                raise UnclearFormError("can be read in more than one way")
            while parts and inner[0].letter in "-+,j":
                if inner[0].letter in "-+" and parts[-1][1].short != "ft":
                    raise UnclearFormError("can be read in more than one way")
                inner = inner[1:]
            parts.append((inner, t.unit))
            start = i + 1
    return _chain(tuple(parts))


def mark_first(found: Found, heading: Unit | None, heading_text: str) -> Worth:
    """`3"1/2`, `8'3"1/2`: the inch mark before its fraction."""
    mark = found[-2]
    if _unit(mark).short != "in":
        if len(found) > 3:
            raise UnclearFormError("ends in a number without a unit")
        return feet_open(found, heading, heading_text)
    if mark.text.isalpha() or not (mark.glued and found[-1].glued):
        raise UnclearFormError("ends in a number without a unit")
    return chain((*found[:-2], found[-1], mark), heading, heading_text)


def feet_open(found: Found, heading: Unit | None, heading_text: str) -> Worth:
    """`8'6`, `8 ft 6`: inches without their mark; only after feet, and not where it may be a range."""
    feet, unit, dash = found[0], _unit(found[1]), found[2].letter == "-"
    rest = found[3:] if dash else found[2:]
    both = (f"{feet.text} ft {words(rest)} in", f"{words((feet, *rest))} ft")
    if unit.short != "ft":
        if _metres_open(found):
            return _chain(((found[:1], unit), (rest, _must("cm"))))
        raise UnclearFormError("ends in a number without a unit")
    if rest[0].letter == "f" or rest[0].text.startswith((".", ",")):
        raise UnclearFormError("can be read in more than one way", both)
    squared = rest[0].glued and found[1].text.isalpha() and rest[0].text in ("2", "3")
    if squared or (dash and quantity(rest, _must("in"), True) > int(feet.text)):
        raise UnclearFormError("can be read in more than one way", (both[0], f"{feet.text} ft"))
    return _chain(((found[:1], unit), (rest, _must("in"))))


def _metres_open(found: Found) -> bool:
    """`3m05`, `3 m 40`: metres and two figures of centimetres, as they are said. Source: common practice in French."""
    whole, unit, *rest = found
    return _unit(unit).short == "m" and len(rest) == 1 and whole.letter == rest[0].letter == "i" and len(rest[0].text) == 2


def _chain(parts: tuple[tuple[Found, Unit], ...]) -> Worth:
    """The sum of parts, each in a smaller unit than the one before and less than one of that."""
    shorts = tuple(u.short for _, u in parts)
    order = next((c for c in CHAINS if set(shorts) <= set(c)), ())
    if not order or list(shorts) != sorted(set(shorts), key=order.index):
        readings = tuple(dict.fromkeys(f"{words(f)} {u.short}" for f, u in parts))
        raise UnclearFormError("holds more than one measure", readings)
    total, above = Fraction(0), None
    for found, unit in parts:
        value = quantity(found, unit, True, alone=False)
        if above and value >= si(above) / si(unit):
            raise UnclearFormError(f"has {words(found)} {unit.short} beside {above.short}", _carried(parts))
        total, above = total + value * si(unit), unit
    return Worth(total, None, FEET_INCHES if set(shorts) == {"ft", "in"} else shorts[0])


def _carried(parts: tuple[tuple[Found, Unit], ...]) -> tuple[str, ...]:
    """Readings of `8'14"`: the sum typed properly, and each part alone."""
    if [u.short for _, u in parts] == ["ft", "in"] and parts[1][0][0].letter == "i" and len(parts[1][0]) == 1:
        feet, inches = int(parts[0][0][0].text), int(parts[1][0][0].text)
        return (f"{feet + inches // 12} ft {inches % 12} in", f"{feet} ft", f"{inches} in")
    return tuple(f"{words(f)} {u.short}" for f, u in parts)


def _dash_readings(found: Found, heading: Unit | None) -> tuple[str, ...]:
    """Readings of `8-9` before a unit, or under a heading: feet and inches, or each end of a range."""
    numbers = [t for t in found if t.letter in "id"]
    unit = next((t.unit.short for t in found if t.unit), heading.short if heading else "")
    if len(numbers) != 2 or numbers[0].letter != "i" or any(t.letter == "f" for t in found):
        return ()
    inches = unit in ("", "ft", "in") and "," not in numbers[1].text
    feet = (f"{numbers[0].text} ft {numbers[1].text} in",) if inches else ()
    return (*feet, *(f"{t.text} {unit}".strip() for t in numbers))


def _unit(token: Token) -> Unit:
    """The unit of a token that is one."""
    assert token.unit is not None
    return token.unit


def _must(short: str) -> Unit:
    unit = unit_of(short, "length")
    assert unit is not None
    return unit


def words(found: Found) -> str:
    """The tokens as text again."""
    return " ".join(t.unit.short if t.unit else t.text for t in found if t.letter != "j").replace(" - ", "-")


Form = Callable[[Found, Unit | None, str], Worth]

FORMS: tuple[tuple[str, Form], ...] = (
    (rf"{Q}U", one),
    (rf"{Q}-U", hyphened),
    (rf"{Q}\(U\)", one),
    (rf"{Q}", bare),
    (rf"U{Q}", unit_first),
    (rf"(?:i-?U[-+,j]?)+{Q}-?U", chain),
    (r"(?:iU[-,]?)?iUf", mark_first),
    (rf"iU-?{Q}", feet_open),
    (rf"i-?{Q}U?", feet_inches_bare),
)
"""Shapes of one measure (tokens.py has the letters), tried in this order, and how each is valued."""

_COMPILED = tuple((re.compile(pattern), form) for pattern, form in FORMS)
_OUTER = re.compile(r"^(?:w[:=,]?|\((?:w+)\)[:=]?)+|(?:[,-]?(?:w|\((?:w+)\)))+$")


def match(found: Found, heading: Unit | None, heading_text: str) -> Worth | None:
    """The worth of the first form that the tokens have; None where they have none.

    Raises UnclearFormError where the form has several meanings. A sign counts only in front of
    everything, so that the dash of `height - 8 ft` is never a minus.
    """
    signed = found and found[0].letter in "-+"
    core = _bare_of_words(found[1:] if signed else found)
    if signed and len(core) < len(found) - 1 and found[1].letter == "w":
        return None
    letters = shape(core)
    for pattern, form in _COMPILED:
        if pattern.fullmatch(letters):
            worth = form(core, heading, heading_text)
            minus = signed and found[0].letter == "-"
            return Worth(-worth.value, worth.unit, worth.short) if minus else worth
    return None


def _bare_of_words(found: Found) -> Found:
    """Tokens without the words before and after that are passed over."""
    letters = shape(found)
    while m := _OUTER.search(letters):
        found = found[: m.start()] + found[m.end() :]
        letters = shape(found)
    return found
