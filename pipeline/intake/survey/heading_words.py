"""A heading that is no known phrase, by its words: all of them must be about one column, or change nothing."""

from __future__ import annotations

import re
from functools import cache

from pipeline.intake.survey.folding import fold
from schemas.heading_words import MADE_OF, NAMES, PLACES, POST_WORDS, SAY_NOTHING, WHICH

_MOST = 14  # words of a heading


def composed(heading: str) -> tuple[str, bool] | None:
    """The one column that all words of a heading are about, and whether it names the post; None where any says more.

    `Top of post above grade` is the height: above the ground stands nothing else of a post.
    """
    words = words_of(heading)
    if not 1 < len(words) <= _MOST:
        return None
    post = bool(words & _folded(POST_WORDS))
    rest = words - _folded(POST_WORDS)
    if rest <= _folded(SAY_NOTHING | PLACES | NAMES) and rest & _folded(NAMES) and rest & _folded(PLACES) and not post:
        return "site_name", True
    if post and rest <= _folded(SAY_NOTHING | WHICH) and rest & _folded(WHICH):
        return "post_code", True
    about = [name for name, (telling, _) in MADE_OF.items() if rest & _folded(telling)]
    if not about and post and {"above"} <= rest:
        about = ["post_height"]
    if len(about) != 1:
        return None
    telling, beside = MADE_OF[about[0]]
    return (about[0], post) if rest <= _folded(telling | beside | SAY_NOTHING) else None


def words_of(heading: str) -> set[str]:
    """The folded words of a heading, without a number in front."""
    plain = re.sub(r"^\s*\d{1,2}\s*[.):]\s*|['’]s\b", "", heading)
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", plain).replace("_", " ")
    return {fold(w) for w in re.findall(r"[^\W_]+", apart)} - {""}


@cache
def _folded(words: frozenset[str]) -> frozenset[str]:
    return frozenset(fold(w) for w in words)
