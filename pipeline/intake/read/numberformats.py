"""What a number format shows: a date, a unit, per cent. Source: ISO/IEC 29500-1 18.8.30 and 18.8.31."""

from __future__ import annotations

import operator
import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from functools import lru_cache

BUILT_IN: dict[int, str] = {
    1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00", 12: "# ?/?", 13: "# ??/??",
    14: "m/d/yyyy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm",
    21: "h:mm:ss", 22: "m/d/yyyy h:mm", 37: "#,##0;(#,##0)", 38: "#,##0;[Red](#,##0)", 39: "#,##0.00;(#,##0.00)",
    40: "#,##0.00;[Red](#,##0.00)", 45: "mm:ss", 46: "[h]:mm:ss", 47: "mm:ss.0", 48: "##0.0E+0", 49: "@",
    **dict.fromkeys((*range(27, 32), 36, *range(50, 55), 57, 58), "yyyy-mm-dd"),
    **dict.fromkeys((32, 33, 34, 35, 55, 56), "h:mm:ss"),
}  # fmt: skip
"""Formats that a workbook names by number only; 27 to 36 and 50 to 58 are dates of East Asian settings."""

_QUIET = re.compile(r'"[^"]*"|\\.|_.|\*.|\[(?!h+\]|m+\]|s+\])[^\]]*\]', re.IGNORECASE | re.DOTALL)
_CONDITION = re.compile(r"\[\s*(<=|>=|<>|<|>|=)\s*([+-]?[0-9.]+)\s*\]")
_TESTS: dict[str, Callable[[float, float], bool]] = {
    "<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge, "=": operator.eq, "<>": operator.ne,
}  # fmt: skip
_DATE_TOKEN = re.compile(
    r'"(?P<q>[^"]*)"|\\(?P<e>.)|[_*].|\[(?P<x>h+|m+|s+)\]|\[[^\]]*\]|(?P<ap>AM/PM|A/P)|(?P<f>\.0+)|(?P<k>y+|m+|d+|h+|s+|b+|e+|g+)|(?P<o>.)',
    re.IGNORECASE | re.DOTALL,
)
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_DIGITS = re.compile(r"[0#?](?:[0#?,./]|/ ?[0-9]+| (?=[#?]+/))*(?:[eE][+-]0+)?")
_LITERAL = re.compile(r'"[^"]*"|\\.')
_SHIFT = 0xE000  # the private area, where no format has a character
_SHOWN = {_SHIFT + i: i for i in range(128)}
_LAST_SERIAL = 2_958_466  # 10000-01-01


@dataclass(frozen=True, slots=True)
class Section:
    """One section of a format: for positive numbers, say."""

    code: str
    is_date: bool
    unit: str = ""
    power: int = 0  # the number is in that unit once it is multiplied by ten to this
    tells: bool = False  # it shows more than the figure: leading zeros, letters
    groups: int = 1  # runs of digits with text between them: `000-00`, `0' 0"`
    condition: tuple[str, float] | None = None

    def scaled(self, number: int | float) -> int | float:
        """The number in the unit that is shown: 2.59 for 2590 under `0.00," m"`. A percentage stays the share it is."""
        return _times_ten_to(number, self.power)


def _times_ten_to(number: int | float, power: int) -> int | float:
    """The number with its decimal point moved, exactly."""
    if not power or number != number or number in (float("inf"), float("-inf")):
        return number
    value = Decimal(repr(number)).scaleb(power)
    return int(value) if value == value.to_integral_value() and abs(value) < 10**15 else float(value)


@dataclass(frozen=True, slots=True)
class NumberFormat:
    """A number format, taken apart."""

    sections: tuple[Section, ...]
    text_unit: str = ""

    def section(self, number: int | float) -> Section:
        """The section that shows a number."""
        if number != number:
            return self.sections[0]
        for section in self.sections:
            if section.condition and _TESTS[section.condition[0]](number, section.condition[1]):
                return section
        if any(s.condition for s in self.sections):
            return next((s for s in self.sections if not s.condition), self.sections[-1])
        if number < 0 and len(self.sections) > 1:
            return self.sections[1]
        if number == 0 and len(self.sections) > 2:
            return self.sections[2]
        return self.sections[0]


@lru_cache(maxsize=4096)
def number_format(code: str) -> NumberFormat | None:
    """A format code taken apart; None where it shows numbers as they are, without unit or date."""
    if not code or code.lower() in ("general", "@", "standard"):
        return None
    parts = _split(code[:1000])
    text_unit = ""
    if len(parts) > 3 or (parts and "@" in _QUIET.sub("", parts[-1])):
        text = parts.pop()
        text_unit = _unit(text.replace("@", "0")) if "@" in text else ""
    sections = tuple(_section(p) for p in parts) or (Section("", False),)
    if not text_unit and not any(s.is_date or s.unit or s.condition or s.tells or s.groups > 1 for s in sections):
        return None
    return NumberFormat(sections, text_unit)


def _split(code: str) -> list[str]:
    """Sections of a format: between semicolons that are not quoted."""
    parts, last = [], 0
    for m in re.finditer(r'"[^"]*"|\\.|\[[^\]]*\]|;', code, re.DOTALL):
        if m[0] == ";":
            parts.append(code[last : m.start()])
            last = m.end()
    return [*parts, code[last:]]


def _section(code: str) -> Section:
    stated = _CONDITION.search(code)
    condition = (stated[1], _float(stated[2])) if stated else None
    bare = _QUIET.sub("", code).lower().replace("general", "")
    digits = re.sub(r"s+\.?0+|e[+-]0+", "", bare)
    is_date = bool(re.search("[ydhsmbg]", re.sub("am/pm|a/p", "h", bare))) and not re.search("[0#?]", digits)
    if is_date:
        return Section(code, True, condition=condition)
    if "%" in bare:
        return Section(code, False, "%", condition=condition)
    groups = len(_DIGITS.findall(_as_text(code)))
    if groups > 1:
        return Section(code, False, condition=condition, groups=groups)
    unit = _unit(_CONDITION.sub("", code))
    commas = re.search(r"[0#?](,+)(?![0#?,])", bare)
    tells = re.match(r"[#?,]*00", bare) is not None or re.search(r"\w", "".join(_LITERAL.findall(code))) is not None
    return Section(code, False, unit, -3 * len(commas[1]) if commas and unit else 0, tells, condition=condition)


def _float(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return 0.0


def _unit(code: str) -> str:
    """The unit that a section's literal text shows, '' without one."""
    if not re.search(r'["\\a-zA-Z\'″′°]', re.sub(r"\[[^\]]*\]|General", "", code)):
        return ""
    from pipeline.intake.measures import format_unit

    joined = re.sub(r'\\([^"])', r'"\1"', code).replace('""', "")  # single escaped letters make one text: \m\m
    joined = re.sub(r"General", "0", joined, flags=re.IGNORECASE)
    return format_unit(re.sub(r"([0#?]),+(?![0#?,])", r"\1", joined))


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
    value = _times_ten_to(number, 2) if section.unit == "%" else section.scaled(number)
    text = _as_text(section.code)
    runs = [m[0].strip() for m in _DIGITS.finditer(text)]
    figures = iter(_figures(abs(value), runs))
    text = _DIGITS.sub(lambda m: next(figures, "") + (" " if m[0].endswith(" ") else ""), text)
    sign = "-" if value < 0 and not re.search("[-−(]", text) else ""
    return sign + re.sub(r" +", " ", text.translate(_SHOWN)).strip()


def _figures(value: int | float, runs: list[str]) -> list[str]:
    """The figure by runs of digit places; the last runs take as many digits as they have places."""
    if len(runs) < 2:
        return [_figure(value, runs[0] if runs else "")]
    digits = f"{value:.0f}".zfill(sum(r.count("0") for r in runs))
    parts: list[str] = []
    for run in reversed(runs[1:]):
        size = len(re.sub("[^0#?]", "", run))
        digits, part = digits[:-size], digits[-size:]
        parts.insert(0, part)
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


def _as_text(code: str) -> str:
    """A section with its literal characters shifted out of the way of digit places, the rest as it is."""

    def shift(m: re.Match[str]) -> str:
        return "".join(chr(ord(c) + _SHIFT) if ord(c) < 128 else c for c in m[1] or m[2] or "")

    return re.sub(
        r'"([^"]*)"|\\(.)|[_*].|\[[^\]]*\]', shift, re.sub("General", "0.#########", code, flags=re.IGNORECASE), flags=re.DOTALL
    )
