"""What a person saw in a cell: serial numbers as dates, figures with the text around them."""

from __future__ import annotations

import re
from datetime import date, timedelta

from pipeline.reading.numberformats import DIGITS, PERCENT, SHIFTED, Section, as_text, times_ten_to

_DATE_TOKEN = re.compile(
    r'"(?P<q>[^"]*)"|\\(?P<e>.)|[_*].|\[(?P<x>h+|m+|s+)\]|\[[^\]]*\]|(?P<ap>AM/PM|A/P)|(?P<f>\.0+)|(?P<k>y+|m+|d+|h+|s+|b+|e+|g+)|(?P<o>.)',
    re.IGNORECASE | re.DOTALL,
)
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_LAST_SERIAL = 2_958_466  # 10000-01-01


def date_value(serial: int | float, section: Section, from_1904: bool) -> str | None:
    """ISO 8601 text of a serial date: a date, a date with time, or a time of day; None where it is no date.

    Day 1 is 1900-01-01 and the 29th of February 1900, which never was, is counted, as the standard
    has it; or day 0 is 1904-01-01. Source: ISO/IEC 29500-1 18.17.4.1.
    """
    if not 0 <= serial < _LAST_SERIAL:
        return None
    day, seconds = _parts(serial)
    clock = f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"
    if day == 0 and (not from_1904 or seconds):
        return clock
    moment = _day(day, from_1904)
    if moment is None:
        return None
    return f"{moment.isoformat()}T{clock}" if seconds else moment.isoformat()


def _parts(serial: int | float) -> tuple[int, int]:
    """Whole days and seconds of a serial date."""
    day = int(serial // 1)
    seconds = round((serial - day) * 86_400)
    return (day + 1, 0) if seconds >= 86_400 else (day, seconds)


def _day(day: int, from_1904: bool) -> date | None:
    try:
        if from_1904:
            return date(1904, 1, 1) + timedelta(days=day)
        return date(1899, 12, 31) + timedelta(days=day if day < 60 else day - 1 if day > 60 else 60)
    except OverflowError:
        return None


def date_shown(serial: int | float, section: Section, from_1904: bool) -> str:
    """The date about as a person saw it, months and days in English."""
    day, seconds = _parts(serial)
    moment = _day(day, from_1904) or date(1900, 1, 1)
    twelve = re.search("am/pm|a/p", section.code, re.IGNORECASE) is not None
    shown, minutes_next = [], False
    tokens = list(_DATE_TOKEN.finditer(section.code))
    for i, token in enumerate(tokens):
        if token["q"] is not None or token["e"] is not None or token["o"] is not None:
            shown.append(token["q"] or token["e"] or token["o"] or "")
        elif token["x"]:
            unit = {"h": 3600, "m": 60, "s": 1}[token["x"][0].lower()]
            shown.append(f"{(day * 86_400 + seconds) // unit:0{len(token['x'])}d}")
            minutes_next = token["x"][0].lower() == "h"
        elif token["ap"]:
            shown.append("PM" if seconds >= 43_200 else "AM")
        elif token["k"]:
            key = token["k"].lower()
            following = next((t["k"][0].lower() for t in tokens[i + 1 :] if t["k"]), "")
            if key[0] == "m" and len(key) < 3 and (minutes_next or following == "s"):
                shown.append(f"{seconds // 60 % 60:0{len(key)}d}")
            else:
                shown.append(_date_piece(key, moment, seconds, twelve))
            minutes_next = key[0] == "h"
    return "".join(shown).strip()


def _date_piece(key: str, moment: date, seconds: int, twelve: bool) -> str:
    letter, length = key[0], len(key)
    if letter == "y" or letter in "beg":
        return f"{moment.year % 100:02d}" if letter == "y" and length < 3 else str(moment.year)
    if letter == "m":
        name = _MONTHS[moment.month - 1]
        return [f"{moment.month}", f"{moment.month:02d}", name[:3], name, name[:1]][min(length, 5) - 1]
    if letter == "d":
        name = _DAYS[moment.weekday()]
        return [f"{moment.day}", f"{moment.day:02d}", name[:3], name][min(length, 4) - 1]
    if letter == "h":
        hour = seconds // 3600
        return f"{(hour % 12 or 12) if twelve else hour:0{min(length, 2)}d}"
    return f"{seconds % 60:0{min(length, 2)}d}"


def number_shown(number: int | float, section: Section) -> str:
    """The number with its literal text about as a person saw it: `88.9 mm`, `007`, `012-34`."""
    if number != number or number in (float("inf"), float("-inf")):
        return ""
    value = times_ten_to(number, 2) if section.unit == PERCENT else section.scaled(number)
    text = as_text(section.code)
    runs = [m[0].strip() for m in DIGITS.finditer(text)]
    figures = iter(_figures(abs(value), runs))
    text = DIGITS.sub(lambda m: next(figures, "") + (" " if m[0].endswith(" ") else ""), text)
    sign = "-" if value < 0 and not re.search("[-−(]", text) else ""
    return sign + re.sub(r" +", " ", text.translate(SHIFTED)).strip()


def _figures(value: int | float, runs: list[str]) -> list[str]:
    """The figure by runs of digit places; the last runs take as many digits as they have places."""
    if any("/" in run for run in runs):
        return [f"{value:.10g}"]
    if len(runs) < 2:
        return [_figure(value, runs[0] if runs else "")]
    last, _, after = runs[-1].partition(".")
    places = len(re.sub("[^0#?]", "", after))
    digits, _, decimals = f"{value:.{places}f}".partition(".")
    digits = digits.zfill(sum(r.count("0") for r in (*runs[:-1], last)))
    parts: list[str] = []
    for run in (last, *reversed(runs[1:-1])):
        size = len(re.sub("[^0#?]", "", run))
        digits, part = digits[:-size], digits[-size:]
        parts.insert(0, part)
    parts[-1] += f".{decimals}" if decimals else ""
    return [digits, *parts]


def _figure(value: int | float, run: str) -> str:
    """The figure as one run of digit places shows it; a fraction or a power of ten as a plain number."""
    if "/" in run or "e" in run.lower():
        return f"{value:.10g}"
    whole, _, decimals = run.partition(".")
    decimals = re.sub("[^0#?]", "", decimals)
    places = len(decimals)
    text = f"{value:0{whole.count('0') + places + (places > 0)}.{places}f}"
    optional = places - decimals.count("0")
    return re.sub(rf"0{{0,{optional}}}$", "", text).removesuffix(".") if optional else text
