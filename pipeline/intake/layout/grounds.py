"""The name of a ground within a title: `Survey of hoops at Oak Street School, 3 March 2026`."""

from __future__ import annotations

import re
from functools import lru_cache

from schemas.grounds import (
    BARE_GROUNDS,
    BEFORE_A_PERSON,
    BETWEEN_NAMES,
    COUNT_BEHIND,
    DETERMINERS,
    GROUNDS,
    NO_GROUND,
    PROJECT_LABELS,
    ROUND_A_NAME,
    SITE_LABELS,
    SMALL_GROUNDS,
)

_COUNT_BEHIND = re.compile(COUNT_BEHIND, re.IGNORECASE)
_GROUND = re.compile(rf"\b(?:{GROUNDS})\b", re.IGNORECASE)
_NO_GROUND = re.compile(rf"\b(?:{NO_GROUND})\b", re.IGNORECASE)
_CUT = re.compile(BETWEEN_NAMES, re.IGNORECASE)
_OF_A_PERSON = re.compile(BEFORE_A_PERSON, re.IGNORECASE)
_PROJECT = re.compile(PROJECT_LABELS, re.IGNORECASE)
_LABEL = re.compile(SITE_LABELS, re.IGNORECASE)
_ABOUT_IT = re.compile(ROUND_A_NAME, re.IGNORECASE)


def without_count(name: str) -> str:
    """The name of a ground without a number of posts behind it."""
    return _COUNT_BEHIND.sub("", name) or name


@lru_cache(maxsize=4096)
def ground_in(text: str) -> str:
    """The one ground that a text names, with a name of its own; '' where it names none, several, or somebody's many."""
    text = _PROJECT.sub("", text)
    if len(text) > 120 or _NO_GROUND.search(text):
        return ""
    label, colon, rest = text.partition(":")
    text = rest if colon and _LABEL.fullmatch(label) and not _named(label) else label
    first, *parts = _CUT.split(" ".join(text.split()))
    pieces = [first, *(piece for cut, piece in zip(parts[::2], parts[1::2], strict=True) if not _OF_A_PERSON.fullmatch(cut))]
    found = [name for piece in pieces if (name := _named(piece))]
    return found[0] if len(found) == 1 else ""


def _named(piece: str) -> str:
    """The piece without the words round a name; '' where it names no ground by a name of its own."""
    words = piece.strip(" #*•-–—·|").split()
    while words and _ABOUT_IT.fullmatch(words[0]):
        words = words[1:]
    while words and _ABOUT_IT.fullmatch(words[-1]) and not (words[-1].isdigit() or words[-1].casefold() == "field"):
        words = words[:-1]
    name = " ".join(words)
    m = _GROUND.search(name)
    begins = bool(words) and (words[0][0].isupper() or _SMALL_GROUND.match(name) is not None)
    if m is None or len(words) > 7 or not begins:
        return ""
    beside = re.findall(r"[\w.'’-]+", _GROUND.sub(" ", name))
    own = [w for w in beside if (w[0].isupper() or w[0].isdigit()) and w.casefold() not in DETERMINERS]
    return name if own or (m[0].casefold() not in _BARE and len(words) == 1) else ""


_SMALL_GROUND = re.compile(
    rf"(?:{SMALL_GROUNDS}) (?:(?:de|del|des|du|do|da|dos|das|di|della|de la|la|les?|los|las|el) )*[^\W\d_a-zà-ÿ]"
)
_BARE = frozenset(BARE_GROUNDS.split("|"))
