"""Whole numbers, plain decimals and money."""

from __future__ import annotations

import math
import re
from decimal import Decimal
from functools import lru_cache

from pipeline.intake.measures.measure import Doubt
from pipeline.intake.measures.text import LONGEST, plain, quoted

_THINGS = (
    r"postes?|poteaux?|m[âa]ts?|masten|mast|pfosten|pal[oi]|st(?:ü|ue)ck|stk|uds?|unidades?|pezz[oi]|pz|pi[èe]ces?|pe[çc]as?|"
    r"posts?|poles?|uprights?|standards?|goals?|pcs?|pieces?|each|ea|off|no|nos|nr|units?|days?|kits?|items?|identical|x"
)
_WHOLE = re.compile(
    rf"(?:(?:x|qty|quantity)\s*[:=]?\s*)?([+-]?[0-9]{{1,9}})(?:[.,]0{{1,2}})?\.?\s*(?:(?:identical\s+)?(?:{_THINGS})\b\.?)?",
    re.IGNORECASE,
)


@lru_cache(maxsize=16384, typed=True)
def read_whole(value: str | int | float) -> int | Doubt:
    """A whole number: `4`, `4.0`, `4 posts`, `12x`, `x 12`; anything else, 4.5 and `1,000` included, is a Doubt."""
    if isinstance(value, str):
        m = _WHOLE.fullmatch(plain(value)) if len(value) <= LONGEST else None
        return int(m[1]) if m else _no_number(value, "a whole number", "Type digits only, such as 4.")
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        return _no_number(value, "a whole number", "Type digits only, such as 4.")
    if value != int(value) or abs(value) >= 1e15:
        return _no_number(value, "a whole number", "Type digits only, such as 4.")
    return int(value)


_CURRENCY = r"(?:[$€£¥]|US\$|[A-Z]{3})"
_MONEY = re.compile(
    rf"(?P<before>{_CURRENCY})?\s*(?P<sign>[+-]?)\s*(?P<again>[$€£¥])?\s*"
    rf"(?P<digits>[0-9][0-9 .,']*|[.,][0-9]+)\s*(?P<after>{_CURRENCY})?"
)
_POWER = re.compile(r"[+-]?[0-9](?:\.[0-9]+)?[eE][+-]?[0-9]{1,2}")
_TYPE_MONEY = "Type digits and a point, such as 1234.50."


@lru_cache(maxsize=16384, typed=True)
def read_decimal(value: str | int | float) -> Decimal | Doubt:
    """A plain decimal or an amount of money: `1,234.50`, `$1,234.50`, `1 234,50`, `1.234,50`, 1234.5.

    A currency's sign or code is passed over. A single comma before exactly three digits is a Doubt,
    unless a currency stands beside it. A float counts with the digits that it shows.
    """
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return _no_number(value, "a number", _TYPE_MONEY)
    if not isinstance(value, str):
        if not math.isfinite(value) or abs(value) >= 1e12:
            return _no_number(value, "a number", _TYPE_MONEY)
        return Decimal(format(value, ".15g"))
    text = plain(value) if len(value) <= LONGEST else ""
    if _POWER.fullmatch(text):
        return Decimal(text)
    m = _MONEY.fullmatch(text)
    if not m or (m["before"] and m["after"]) or (m["before"] and m["again"]):
        return _no_number(value, "a number", _TYPE_MONEY)
    digits = _digits(m["digits"].strip(), bool(m["before"] or m["again"] or m["after"]))
    if digits is None:
        bare = m["digits"].strip()
        if not re.fullmatch(r"[0-9]{1,3},[0-9]{3}", bare):
            return _no_number(value, "one clear number", _TYPE_MONEY)
        readings = (bare.replace(",", "").lstrip("0"), bare.replace(",", "."))
        return _no_number(value, "one clear number", f"Type the one that is meant: {' or '.join(readings)}.", readings)
    return -Decimal(digits) if m["sign"] == "-" else Decimal(digits)


def _digits(raw: str, currency: bool) -> str | None:
    """Digits with at most one point; None where the signs can be read in more than one way."""
    if sum(c.isdigit() for c in raw) > 15:
        return None
    if re.fullmatch(r"[0-9]+|[0-9]*\.[0-9]+|[0-9]+\.", raw):
        return raw
    if m := re.fullmatch(r"([0-9]*),([0-9]{1,2}|[0-9]{4,})", raw):
        return f"{m[1] or 0}.{m[2]}"
    for group, point in ((",", "."), (".", ","), (" ", ","), (" ", "."), ("'", ".")):
        g, p = re.escape(group), re.escape(point)
        m = re.fullmatch(rf"([1-9][0-9]{{0,2}}(?:{g}[0-9]{{3}})+)(?:{p}([0-9]+))?", raw)
        if m and (currency or m[2] or group in " '" or raw.count(group) > 1) and not (point == "," and len(m[2] or "") == 3):
            return m[1].replace(group, "") + (f".{m[2]}" if m[2] else "")
    return None


def _no_number(value: object, what: str, suggestion: str, readings: tuple[str, ...] = ()) -> Doubt:
    could = f" It could be {' or '.join(readings)}." if readings else ""
    return Doubt("UNREADABLE", f"{quoted(value)} is not {what}.{could}", suggestion, readings)
