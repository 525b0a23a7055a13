"""A pipe's schedule in a size: the ways to write it."""

from __future__ import annotations

import re

from pipeline.intake.measures.doubts import unreadable
from pipeline.intake.measures.measure import Doubt

_SCHEDULE_WORDS: tuple[tuple[str, str], ...] = (
    (r"(?:double|dbl) extra (?:strong|heavy)|xxs|xxh", "XXS"),
    (r"extra (?:strong|heavy)|x[- ]?(?:strong|heavy)|xs|xh", "XS"),
    (r"standard(?: (?:weight|wt|wall|pipe))?|std\.?(?: ?(?:weight|wt|wall)\.?)?", "STD"),
    (r"(?:schedule|sched|sch|sc|c[ée]dula|c[ée]d)\.? ?(?:no\.? ?|# ?|- ?|: ?)?(?P<n>[0-9]+s?)", ""),
    (r"(?<![a-z0-9])s-?(?P<n>5|10|40|80)(?![0-9a-z])|(?<![0-9.])(?P<m>5|10|40|80)s(?![a-z])", ""),
)
"""Ways to write a schedule, and which it is ('' = the number in it)."""

_SCHEDULES = tuple((re.compile(rf"(?<![a-z])(?:{p})(?![a-z0-9])", re.IGNORECASE), s) for p, s in _SCHEDULE_WORDS)


def schedule_of(text: str) -> tuple[str | Doubt, str]:
    """The schedule that the text names ('' = none), and the text without it."""
    found, whole = list[str](), text
    for pattern, name in _SCHEDULES:
        for m in pattern.finditer(text):
            found.append(name or (m["n"] or f"{m['m']}S").upper())
        text = pattern.sub(" ", text)
    known = dict.fromkeys(found)
    if len(known) > 1:
        return unreadable(whole, "length", f"names more than one schedule ({', '.join(known)})"), text
    rest = re.sub(r"\(\s*\)", " ", text) if known else text
    return next(iter(known), ""), " ".join(rest.split()).strip(" ,;").rstrip(" -/" if known else "")
