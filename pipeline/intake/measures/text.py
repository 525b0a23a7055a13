"""Characters that people and programs write for one another, brought to plain ones.

Nothing here changes a value: what has no plain equivalent (a superscript, digits of another
script, a control or a direction mark) is left standing, and the forms refuse it.
"""

from __future__ import annotations

import re
import unicodedata

LONGEST = 120
"""No measure that a person types is longer; longer text is not looked at."""

_PLAIN = {
    **dict.fromkeys("‘’‚‛′ʹʼˈ´`‵", "'"),
    **dict.fromkeys("“”„‟″ʺˮ‶˝", '"'),
    **dict.fromkeys("‐‑‒–—−﹣", "-"),
    **dict.fromkeys("⁄∕", "/"),
    **dict.fromkeys("⌀∅Øøφ", "Ø"),
    **dict.fromkeys("º˚", "°"),
    **dict.fromkeys("\u200b\u200c\u200d\u200e\u200f\u2060\ufeff\u00ad", ""),
    **dict.fromkeys("\t\n\r\v\f\u0085\u2028\u2029", " "),
    "×": "x",
    "μ": "µ",
    "⁺": "+",
}
_VULGAR = {c: f" {unicodedata.normalize('NFKC', c).replace(chr(0x2044), '/')} " for c in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒"}
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
_RAISED_FRACTION = re.compile(r"[⁰¹²³⁴-⁹]{1,3}[⁄/∕][₀-₉]{1,3}")


def plain(text: str) -> str:
    """`text` with plain quotes, dashes, spaces, slashes and fractions; single spaces; no outer space."""
    text = _RAISED_FRACTION.sub(lambda m: f" {m[0].translate(_RAISED)} ", text)
    text = "".join(_plain_character(c) for c in text)
    text = text.replace("''", '"')
    return re.sub(r" +", " ", text).strip()


_TIDIED = tuple(
    (re.compile(pattern, re.IGNORECASE), put)
    for pattern, put in (
        (r"^= ?|[ ,;]+$", ""),
        (r"(?<=[0-9]) ?in (?=(?:diameter|height|width|depth|length)\b)", " in. "),
        (r"(?<=[0-9])·(?=[0-9])", "."),
        (r"\b([1-9][0-9]{1,2}) ?/ ?\1\b", r"\1 x \1"),
        (r"^(Ø|D|DIA|DA)\.? ?[:=] ?(?=[0-9])", "Ø "),
        (r"^Ø ?(?:a|d)\. ?(?=[0-9])", "Ø "),
        (r"^C(?:IRC)?\.? ?[:=] ?(?=[0-9])", "circ "),
    )
)
"""Ways of writing a measure that say it otherwise than the forms: `= 8'-6"`, `4.5 in diameter`, `D = 89 mm`."""


def tidied(text: str) -> str:
    """Plain text of a measure as the forms have it."""
    text = plain(text)
    for pattern, put in _TIDIED:
        text = pattern.sub(put, text)
    return text


def _plain_character(c: str) -> str:
    if c in _PLAIN:
        return _PLAIN[c]
    if c in _VULGAR:
        return _VULGAR[c]
    if "\uff01" <= c <= "\uff5e":
        return _plain_character(chr(ord(c) - 0xFEE0))
    return " " if unicodedata.category(c) == "Zs" else c


def quoted(value: object) -> str:
    """What stands in the cell, fit to be shown in a sentence."""
    shown = format(value, ".15g") if isinstance(value, float) else str(value)
    text = "".join(c if c.isprintable() else " " for c in shown)
    text = " ".join(text.split())
    return f"“{text[:60]}…”" if len(text) > 60 else f"“{text}”"
