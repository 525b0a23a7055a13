"""Exact lengths and masses, and the ways in which people write them."""

from __future__ import annotations

import random
from fractions import Fraction

M = Fraction(1)
MM = Fraction(1, 1000)
CM = Fraction(1, 100)
INCH = Fraction(254, 10000)  # Source: international inch, 25.4 mm by definition
FT = 12 * INCH
LB = Fraction(45359237, 100000000)  # Source: international pound, by definition
KG = Fraction(1)
LENGTHS = {"in": INCH, "ft": FT, "mm": MM, "cm": CM, "m": M}
MASSES = {"lb": LB, "kg": KG}
MPH = Fraction(44704, 100000)  # Source: 1609.344 m an hour, by definition

Cell = str | float | int | None


def inches(n: float | str) -> Fraction:
    return Fraction(n) * INCH


def feet(n: float | str) -> Fraction:
    return Fraction(n) * FT


def mm(n: float | str) -> Fraction:
    return Fraction(n) * MM


def lb(n: float | str) -> Fraction:
    return Fraction(n) * LB


def number(value: Fraction, unit: Fraction) -> float | int:
    """The number that stands under a heading with that unit."""
    n = value / unit
    return int(n) if n.denominator == 1 else float(n)


def decimal_text(n: Fraction, places: int) -> str | None:
    """A terminating decimal of at most so many places, or None."""
    scaled = n * 10**places
    if scaled.denominator != 1:
        return None
    text = f"{'-' if n < 0 else ''}{abs(int(scaled)) // 10**places}.{abs(int(scaled)) % 10**places:0{places}d}"
    return text.rstrip("0").rstrip(".")


def fraction_text(n: Fraction) -> str:
    """`6 1/2` for a number of inches in sixteenths."""
    whole, rest = divmod(n, 1)
    return str(whole) if not rest else f"{whole} {rest}" if whole else str(rest)


def length_texts(value: Fraction) -> list[str]:
    """Ways to write exactly that length with its unit; some lengths have none."""
    out = []
    for name, places in (("mm", 4), ("cm", 5), ("m", 7)):
        text = decimal_text(value / LENGTHS[name], places)
        if text is not None:
            out += [f"{text} {name}", f"{text}{name}"]
    n = value / INCH
    if value > 0 and (n * 16).denominator == 1:
        out += [f'{fraction_text(n)}"', f"{fraction_text(n)} in"]
        foot, inch = divmod(n, 12)
        if foot:
            out += [f"{foot}' {fraction_text(inch)}\"", f"{foot} ft {fraction_text(inch)} in", f"{foot}'-{fraction_text(inch)}\""]
    return out


def length_cell(value: Fraction | None, unit: str, rng: random.Random, text_share: float = 0.4) -> Cell:
    """A length as a number under its heading's unit, or as text with a unit of its own."""
    if value is None:
        return None
    texts = length_texts(value)
    if texts and rng.random() < text_share:
        return rng.choice(texts)
    return number(value, LENGTHS[unit])


def lengths_cell(values: tuple[Fraction, ...] | None, unit: str, rng: random.Random) -> Cell:
    """Several lengths with `;` between: all under the heading's unit, or each with its own."""
    if values is None:
        return None
    if len(values) == 1:
        return length_cell(values[0], unit, rng)
    numbers = [number(value, LENGTHS[unit]) for value in values]
    if rng.random() < 0.5 and all(len(repr(n)) <= 8 for n in numbers):
        return "; ".join(str(n) for n in numbers)
    return "; ".join(rng.choice(length_texts(value)) for value in values)
