"""What a number format shows: a date, a unit, per cent. Source: ISO/IEC 29500-1 18.8.30 and 18.8.31."""

from __future__ import annotations

import operator
import re
from collections.abc import Callable
from dataclasses import dataclass
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
DIGITS = re.compile(r"[0#?](?:/ ?[1-9][0-9]*|[0#?,./]| (?=[#?]+/))*(?:[eE][+-]0+)?")
PERCENT = "100 %"
"""Unit of a number that is stored as a share and shown in per cent: 0.02 as 2 %. A literal sign, `0" %"`, is the unit `%`."""
_SHIFT = 0xE000  # the private area, where no format has a character
SHIFTED = {_SHIFT + i: i for i in range(128)}
_LITERAL = re.compile(r'"[^"]*"|\\.')
_FRACTION_GAP = re.compile(r'(?<=[0#?])(?:\\[ -]|"[ -]"|[ -])(?=[0#?]+ ?/)')
_THOUSANDS_GAP = re.compile(r"""(?<=\#)(?:\\[ '\u00a0\u202f]|"[ '\u00a0\u202f]"|[ \u00a0\u202f])(?=[#0]{3}(?![#0?]))""")
"""Between a whole number and its fraction, and between thousands: `#\\ ?/8`, `#\\ ##0` as programs write them."""
_MILLIONS = re.compile(r'(?:"\s*[MKB]\s*"|\\[MKB])\s*\Z')


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
        return times_ten_to(number, self.power)


def times_ten_to(number: int | float, power: int) -> int | float:
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
    code = _THOUSANDS_GAP.sub(",", _FRACTION_GAP.sub(" ", code))
    stated = _CONDITION.search(code)
    condition = (stated[1], _float(stated[2])) if stated else None
    bare = _QUIET.sub("", code).lower().replace("general", "")
    digits = re.sub(r"s+\.?0+|e[+-]0+", "", bare)
    is_date = bool(re.search("[ydhsmbg]", re.sub("am/pm|a/p", "h", bare))) and not re.search("[0#?]", digits)
    if is_date:
        return Section(code, True, condition=condition)
    if "%" in bare:
        return Section(code, False, PERCENT, condition=condition)
    runs = DIGITS.findall(as_text(code))
    groups = 1 if any("/" in run for run in runs) else len(runs)
    if groups > 1:
        return Section(code, False, condition=condition, groups=groups)
    commas = re.search(r"[0#?](,+)(?![0#?,])", bare)
    unit = "" if commas and _MILLIONS.search(code) else _unit(_CONDITION.sub("", code))
    tells = re.match(r"[#?,]*00", bare) is not None or re.search(r"\w", "".join(_LITERAL.findall(code))) is not None
    return Section(code, False, unit, -3 * len(commas[1]) if commas else 0, tells, condition=condition)


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


def as_text(code: str) -> str:
    """A section with its literal characters shifted out of the way of digit places, the rest as it is."""

    def shift(m: re.Match[str]) -> str:
        return "".join(chr(ord(c) + _SHIFT) if ord(c) < 128 else c for c in m[1] or m[2] or "")

    return re.sub(
        r'"([^"]*)"|\\(.)|[_*].|\[[^\]]*\]', shift, re.sub("General", "0.#########", code, flags=re.IGNORECASE), flags=re.DOTALL
    )
