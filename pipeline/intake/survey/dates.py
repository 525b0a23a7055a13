"""Days as people write them, and what was typed where the spreadsheet program made a date of it."""

from __future__ import annotations

import re
from datetime import date
from functools import cache

from pipeline.intake.survey.folding import fold
from schemas.languages import LANGUAGES, split

_HALVES = {2: "1/2", 4: "1/4", 8: "1/8", 16: "1/16", 32: "1/32"}


_MONTHS = {m: n for n, m in enumerate(["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"], 1)}
_NAMES = "|".join(_MONTHS)
_TEXTS = tuple(
    re.compile(p, re.IGNORECASE)
    for p in (
        r"(?P<y>\d{4})-(?P<m>\d\d)-(?P<d>\d\d)(?:[T ][\d:.]+)?",
        rf"(?P<d>\d{{1,2}})[-/. ](?P<m>{_NAMES})[a-z]*\.?(?:[-/. ,]+(?P<y>\d{{4}}|\d\d))?",
        rf"(?P<m>{_NAMES})[a-z]*\.?[-/. ](?P<d>\d{{1,2}})(?:[-/. ,]+(?P<y>\d{{4}}))?",
        r"(?P<m>\d{1,2})/(?P<d>\d{1,2})/(?P<y>\d{4})",
    )
)


def date_of_text(text: str) -> str:
    """The ISO date that a text such as `6-Aug` shows, as text files have it; '' where it is none.

    Where no year is shown the year is 0000; of `8/6/2026` the first number is taken as the month.
    """
    for pattern in _TEXTS:
        if m := pattern.fullmatch(text.strip()):
            month = _MONTHS.get(m["m"].lower()) or int(m["m"])
            year, day = int(m["y"] or 0), int(m["d"])
            if month > 12 >= day:
                month, day = day, month
            return f"{year + 2000 * (0 < year < 100):04d}-{month:02d}-{day:02d}" if month <= 12 and 1 <= day <= 31 else ""
    return ""


_BETWEEN = re.compile(
    r"[\s.,/-]+|\b(?:de|del|di|of|the|le|el|il|den|am|vom)\b|(?<=\d)(?:st|nd|rd|th|er|re|º|°|ª)(?!\w)", re.IGNORECASE
)


@cache
def _month_names() -> dict[str, int]:
    """Every month's name, and every beginning of three letters or more that is no other month's in any language."""
    found: dict[str, set[int]] = {}
    for language in LANGUAGES:
        for n, name in enumerate(split(language.months), 1):
            plain = fold(name)
            for length in range(3, len(plain) + 1):
                found.setdefault(plain[:length], set()).add(n)
    return {word: months.pop() for word, months in found.items() if len(months) == 1}


@cache
def _weekdays() -> frozenset[str]:
    names = [fold(name) for language in LANGUAGES for name in split(language.weekdays)]
    return frozenset((*names, *(n[:3] for n in names)))


def day_of(text: str) -> str:
    """The ISO date of a day that can be read in one way only; '' for any other text.

    ISO (`2026-03-14`), or the month in letters in one of six languages and the year in full: `3 marzo 2026`, `March 3, 2026`,
    `3. März 2026`, `le 1er mars 2026`. `3/4/26` and `03.04.2026` are two days each.
    """
    iso = re.fullmatch(r"(\d{4})-(\d\d)-(\d\d)(?:[T ][\d:.]+)?", text.strip())
    if iso:
        return _real(*(int(g) for g in iso.groups()))
    words = [w for w in _BETWEEN.split(text.strip()) if w]
    if len(words) == 4 and fold(words[0]) in _weekdays():
        words = words[1:]
    months = [m for w in words if (m := _month_names().get(fold(w)))]
    numbers = [w for w in words if w.isascii() and w.isdigit()]
    if len(words) != 3 or len(months) != 1 or len(numbers) != 2:
        return ""
    years = [int(n) for n in numbers if len(n) == 4]
    days = [int(n) for n in numbers if len(n) <= 2]
    return _real(years[0], months[0], days[0]) if len(years) == len(days) == 1 else ""


def _real(year: int, month: int, day: int) -> str:
    """The ISO date, where there is such a day."""
    try:
        return date(year, month, day).isoformat()
    except ValueError:
        return ""


def likely_typed(iso: str) -> tuple[str, ...]:
    """What was likely typed, likeliest first, from a cell's ISO date; () where it is no date.

    `3-1/2` becomes the first of March of 2002, `8-6` the sixth of August of the year of typing; where
    the day comes first it is the eighth of June.
    """
    m = re.match(r"(\d{4})-(\d\d)-(\d\d)", iso)
    if m is None:
        return ()
    year, month, day = (int(g) for g in m.groups())
    found = [f"{month}-{day}/{year % 100}"] if year % 100 in _HALVES and 2000 < year < 2050 and day < year % 100 else []
    found.append(f"{month}-{day}")
    if day <= 12 and day != month:
        found.append(f"{day}-{month}")
    return tuple(found)


def as_length(typed: str, unit: str) -> str:
    """A typed `8-6` or `3-1/2` as a length that is read in one way only, fit for pasting in."""
    whole, _, rest = typed.partition("-")
    if "/" in rest:
        return f"{whole} {rest} {'in' if unit in ('', 'in', 'ft', 'ft-in') else unit}"
    return f"{whole} ft {rest} in" if int(rest) < 12 else ""
