"""Text to tokens: each token is one letter of a shape, and the shapes are what the table of forms lists.

i whole digits, d another number, f proper fraction, g improper fraction, U unit of the wanted kind,
w a word that is passed over, j `and`, x something that no form has; the signs - , ( ) / : = stand
for themselves. Source of none: the shapes are ours.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from pipeline.intake.measures.numerals import FRACTION, NUMERAL, proper
from pipeline.units import BY_KIND, UNITS, Unit, unit_of
from schemas.measure_words import LETTERS, PASSED_OVER

_LETTER = "A-Za-zµ\u00c0-\u024f\u0400-\u04ff²³^"
_SIGN = re.compile(r"[-,()/:=\[\]+]")
_WORD = re.compile(rf"[{_LETTER}][{_LETTER}.]*|.", re.DOTALL)
_AND = re.compile(rf"(?:and(?![{_LETTER}])|&)", re.IGNORECASE)
_NAMED = re.compile(rf"(?:{'|'.join(LETTERS)})(?= ?[=:])", re.IGNORECASE)
_LEADING = re.compile(rf"(?:{'|'.join(LETTERS)})(?:(?= ?[0-9])|\.(?= ))", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Token:
    """One token: its letter, its text, its unit (U) and whether it touches the token before it."""

    letter: str
    text: str
    unit: Unit | None = None
    glued: bool = False


def tokens(text: str, kind: str, more: tuple[str, ...] = ()) -> tuple[Token, ...]:
    """The tokens of plain `text`; `more` are further words to pass over."""
    out: list[Token] = []
    at = 0
    while at < len(text):
        if text[at] == " ":
            at += 1
            continue
        token, end = _next(text, at, kind, more)
        if end == len(text) and token.letter == "x" and out and out[-1].letter == "U" and token.text.casefold() in LETTERS:
            token = Token("w", token.text)
        out.append(Token(token.letter, token.text, token.unit, at > 0 and text[at - 1] != " "))
        at = end
    return tuple(out)


def shape(found: tuple[Token, ...]) -> str:
    """The letters of the tokens in one string."""
    return "".join(t.letter for t in found)


def _next(text: str, at: int, kind: str, more: tuple[str, ...]) -> tuple[Token, int]:
    if m := FRACTION.match(text, at):
        return Token("f" if proper(m[1], m[3]) else "g", m[0]), m.end()
    if (m := _passed_over(kind, more).match(text, at)) and m[0][0].isdigit():
        return Token("w", m[0]), m.end()
    if m := NUMERAL.match(text, at):
        digits = m[0].rstrip(".")
        return Token("i" if digits.isdigit() else "d", digits), m.end()
    if m := _AND.match(text, at):
        return Token("j", m[0]), m.end()
    passed = _passed_over(kind, more).match(text, at) or _NAMED.match(text, at)
    if not passed and at == 0 and kind == "length":
        passed = _LEADING.match(text)
    unit = _spellings(kind).match(text, at)
    if passed and (not unit or passed.end() > unit.end()):
        return Token("w", passed[0]), passed.end()
    if unit and (known := unit_of(unit[1], kind)):
        return Token("U", unit[0], known), unit.end()
    if m := _SIGN.match(text, at):
        return Token(m[0].translate(str.maketrans("[]", "()")), m[0]), m.end()
    m = _WORD.match(text, at)
    assert m is not None
    return Token("x", m[0]), m.end()


@cache
def _passed_over(kind: str, more: tuple[str, ...]) -> re.Pattern[str]:
    words = sorted((*PASSED_OVER.get(kind, ()), *more), reverse=True)  # a longer one before those that it begins with
    alternatives = "|".join(re.escape(w) for w in words) or "(?!)"
    return re.compile(rf"(?:{alternatives})(?![{_LETTER}])(?:\.(?![0-9]))?", re.IGNORECASE)


@cache
def _spellings(kind: str) -> re.Pattern[str]:
    """Every spelling of a unit of the kind, longest first; a full stop after it belongs to it.

    A letter or a raised figure that follows makes it another word (`m²`, `inner`); so does a point
    before a digit (`ft.6`), which may be a decimal point.
    """
    kinds = BY_KIND.get(kind, (kind,))
    words = sorted({s for u in UNITS if u.kind in kinds for s in u.spellings}, reverse=True)
    signs = [re.escape(w) for w in words if not w[-1].isalpha()]
    letters = [re.escape(w).replace(r"\ ", " ?").replace("/", " ?/ ?") for w in words if w[-1].isalpha()]
    ending = rf"(?![{_LETTER}])(?:\.(?![0-9])|(?!\.[0-9]))"
    return re.compile(
        rf"((?:{'|'.join(letters) or '(?!)'})(?={ending})|(?:{'|'.join(signs) or '(?!)'}))(?:\.(?![0-9]))?", re.IGNORECASE
    )
