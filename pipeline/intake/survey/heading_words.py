"""A heading that is no known phrase, by its words: all of them must be about one column, or change nothing."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from pipeline.intake.survey.folding import fold, stem
from schemas.heading_words import (
    ABOVE,
    COMPOUND,
    COUNTED,
    FROM_GROUND,
    GROUND,
    IN_COMPOUNDS,
    KINDS,
    MADE_OF,
    NAMES,
    NUMBERS,
    OTHER_THINGS,
    PLACES,
    PLURALS,
    POST_WORDS,
    SAY_NOTHING,
    WHICH,
    WHOLE,
)

_MOST = 14  # words of a heading
_COMPOUND = re.compile(COMPOUND)
_NUMBER_OF = re.compile(r"\W*(?:no|nr|n[°º]|num|number|#)\b", re.IGNORECASE)
_PLURAL = re.compile(rf"\b(?:{PLURALS})\b", re.IGNORECASE)


def composed(heading: str) -> tuple[str, bool] | None:
    """The one column that all words of a heading are about, and whether it names the post; None where any says more.

    `Top of post above grade` is the height: above the ground stands nothing else of a post.
    """
    words = words_of(heading)
    if len(words) == 1 and words <= _folded(MADE_OF["old_fittings"][0]):
        return "old_fittings", False
    if not 1 < len(words) <= _MOST:
        return None
    if _PLURAL.search(heading) and words - _folded(POST_WORDS) <= _folded(SAY_NOTHING | COUNTED) and words & _folded(COUNTED):
        return "quantity", True
    post = bool(words & _folded(POST_WORDS))
    rest = words - _folded(POST_WORDS)
    if rest <= _folded(SAY_NOTHING | PLACES | NAMES) and rest & _folded(NAMES) and rest & _folded(PLACES) and not post:
        return "site_name", True
    if _PLURAL.search(heading) and rest <= _folded(SAY_NOTHING | WHICH | NUMBERS):  # `No. Poles` counts them
        return ("quantity", True) if _NUMBER_OF.match(heading) else None
    if post and rest <= _folded(SAY_NOTHING | WHICH | NUMBERS) and rest & _folded(WHICH | NUMBERS):
        return "post_code", True
    about = [name for name, (telling, _) in MADE_OF.items() if rest & _folded(telling)]
    if not about and rest & _folded(ABOVE) and rest & _folded(GROUND):
        return ("post_height", post) if rest <= _folded(SAY_NOTHING | ABOVE | GROUND | MADE_OF["post_height"][1]) else None
    if len(about) != 1:
        return None
    telling, beside = MADE_OF[about[0]]
    if about == ["post_height"] and (post or rest & _folded(FROM_GROUND)):
        beside = beside | WHOLE
    return (about[0], post) if rest <= _folded(telling | beside | SAY_NOTHING) else None


@lru_cache(maxsize=16384)
def words_of(heading: str) -> frozenset[str]:
    """The folded words of a heading, without a number in front."""
    plain = re.sub(r"^\s*\d{1,2}\s*[.):]\s*|['’]s\b", "", re.sub(r"\b[oO]\.\s?[dD]\b", "OD", heading))
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", plain).replace("_", " ")
    words = {fold(w) for w in re.findall(r"[^\W_]+", apart)} - {""}
    parts = {w: m for w in words if (m := _COMPOUND.fullmatch(w))}
    apart_again = {fold(p) for m in parts.values() for p in (m[1], IN_COMPOUNDS.get(m[2], m[2]))}
    return frozenset(stem(w) for w in (words - parts.keys()) | apart_again)


def says_a_kind(heading: str) -> bool:
    """Whether a heading asks for the kind of post and nothing else: `What kind of pole`."""
    words = words_of(heading)
    rest = words - _folded(POST_WORDS)
    return len(words) > len(rest) and bool(rest & _folded(KINDS)) and rest <= _folded(SAY_NOTHING | KINDS)


def names_a_post(heading: str) -> bool:
    """Whether a heading has a word for a post."""
    return bool(words_of(heading) & _folded(POST_WORDS))


def of_other_things(heading: str) -> bool:
    """Whether a heading says that the rows are other things than posts: `Tree ID`, `Species`."""
    words = words_of(heading)
    return bool(words & _folded(OTHER_THINGS)) and words <= _folded(OTHER_THINGS | NUMBERS | NAMES | KINDS)


@cache
def _folded(words: frozenset[str]) -> frozenset[str]:
    return frozenset(stem(fold(w)) for w in words)
