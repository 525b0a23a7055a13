"""One number as people write it, exactly: signs for decimals and thousands, fractions, powers of ten."""

from __future__ import annotations

import re
from fractions import Fraction

NUMERAL = re.compile(
    r"(?<![A-Za-z'\",])[.,][0-9]+(?:[eE][+-]?[0-9]{1,2}(?![0-9]))?|"
    r"[0-9]{1,3}(?: [0-9]{3})+(?![0-9/]| ?/)(?:[.,][0-9]+)*|"
    r"[0-9]+(?:[.,][0-9]+)*(?:[eE][+-]?[0-9]{1,2}(?![0-9]))?(?:\.(?![0-9.]))?"
)
"""What may be one number; `number` decides what it means."""

FRACTION = re.compile(r"([0-9]{1,3})( ?/ ?)([0-9]{1,4})(?![0-9.,]*[0-9]| ?/ ?[0-9])")

MOST_DIGITS = 40
"""Digits beyond which a number is a slip; a program may print thirty where a spreadsheet shows fifteen."""

_HALVES = {2, 4, 8, 16, 32, 64, 128}
_OTHERS = {3, 5, 6, 10, 12, 20, 25, 50, 100, 1000}


class UnclearNumberError(Exception):
    """A numeral with several meanings, or none; `readings` are the numbers it could be, in plain digits."""

    def __init__(self, why: str, readings: tuple[str, ...] = ()) -> None:
        super().__init__(why)
        self.why = why
        self.readings = readings


def number(raw: str, unit: str, spaced: bool) -> Fraction:
    """The value of a numeral that stands before `unit` ('' = a plain number).

    A comma is a decimal sign, but before exactly three digits it is a thousands sign for mm, a
    decimal sign for m, and unclear for other units. Where both signs stand, the last one is the
    decimal sign. `spaced` tells whether spaces may part thousands (metric units).
    """
    raw = raw.rstrip(".")
    if len(re.sub(r"\D", "", raw).lstrip("0")) > MOST_DIGITS:
        raise UnclearNumberError("has more digits than a measure needs")
    mantissa, _, power = raw.lower().partition("e")
    if power:
        if "," in mantissa or abs(int(power)) > 12:
            raise UnclearNumberError("is not written as a plain number")
        return Fraction(mantissa) * Fraction(10) ** int(power)
    if " " in raw and not spaced:
        raise UnclearNumberError("has a space inside the number, or holds two numbers")
    return Fraction(_plain_digits(raw, unit))


def _plain_digits(raw: str, unit: str) -> str:
    """Digits with at most one point."""
    signs = re.findall(r"[.,]", raw)
    if " " in raw:
        return _with_groups(raw, " ", signs[0] if signs else "")
    if len(set(signs)) == 2:
        return _with_groups(raw, signs[0], signs[-1])
    if len(signs) > 1:
        return _with_groups(raw, signs[0], "")
    if signs == [","] and re.search(r",[0-9]{3}$", raw):
        return _three_digits(raw, unit)
    return raw.replace(",", ".")


def _three_digits(raw: str, unit: str) -> str:
    """A single comma before exactly three digits."""
    if unit == "m":
        return raw.replace(",", ".")
    if unit == "mm" and re.fullmatch(r"[1-9][0-9]{0,2},[0-9]{3}", raw):
        return raw.replace(",", "")
    raise UnclearNumberError(
        "has a comma that may stand for thousands or for decimals", (raw.replace(",", "").lstrip("0"), raw.replace(",", "."))
    )


def _with_groups(raw: str, group: str, point: str) -> str:
    """A number whose thousands are parted by `group`; unclear where the groups are not of three digits."""
    whole, _, rest = raw.rpartition(point) if point else (raw, "", "")
    regular = re.fullmatch(rf"[1-9][0-9]{{0,2}}(?:{re.escape(group)}[0-9]{{3}})+", whole)
    if not regular or (point == "," and len(rest) == 3) or (point and not rest.isdigit()):
        raise UnclearNumberError("has commas, points or spaces that can be read in more than one way")
    return whole.replace(group, "") + (f".{rest}" if rest else "")


def proper(numerator: str, denominator: str) -> bool:
    """Whether a fraction is less than one."""
    return int(numerator) < int(denominator)


def fraction(numerator: str, denominator: str, whole: bool, own_unit: bool) -> Fraction:
    """The value of a proper fraction.

    `3/8` is a fraction; `9/10` with no unit of its own may be two heights, so that denominators
    other than halves of halves want a unit beside them. Nought is a numerator only after a whole.
    """
    n, d = int(numerator), int(denominator)
    known = d in _HALVES or (d in _OTHERS and (own_unit or whole))
    if not known or (n == 0 and not whole) or len(numerator) != len(str(n)):
        raise UnclearNumberError("has a fraction that nobody measures in")
    return Fraction(n, d)
