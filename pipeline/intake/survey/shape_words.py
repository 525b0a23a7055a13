"""A post's shape as a text says it beside other words: `GI square pipe, painted`, `SHS 100`."""

from __future__ import annotations

import re
from functools import lru_cache

from pipeline.intake.survey.list_words import read_word
from schemas.post_words import DOUBTFUL_SHAPES, SAYS_OTHER_SHAPE, SAYS_ROUND_POST, SAYS_SQUARE_POST

_SAID = {
    "square": re.compile(SAYS_SQUARE_POST, re.IGNORECASE),
    "round": re.compile(SAYS_ROUND_POST, re.IGNORECASE),
    "other": re.compile(SAYS_OTHER_SHAPE, re.IGNORECASE),
}
_LONGEST = 200


@lru_cache(maxsize=4096)
def shape_in(text: str, whole: bool = True) -> str:
    """The one shape of a post that a text says; '' where it says none, or several. Not `whole`: only beside a word for a post."""
    word = read_word("post_shape", text) if whole else None
    if word:
        return word.value
    found = [shape for shape, said in _SAID.items() if len(text) <= _LONGEST and said.search(text)]
    return found[0] if len(found) == 1 else ""


_PIECES = re.compile(r"[,;()]|\s[-–—]\s|\s(?:on|with|w/|in|set)\s", re.IGNORECASE)
_DOUBT = re.compile(rf"\b(?:{DOUBTFUL_SHAPES})\b|[?~/]", re.IGNORECASE)

_FAMILIES = tuple(
    re.compile(words, re.IGNORECASE) for words in (r"\b(?:round|rnd|circular|chs|cylind)", r"\b(?:square|sq|shs|box)\b")
)


@lru_cache(maxsize=4096)
def shape_described(text: str) -> str:
    """The one shape that a description of a post says: `round steel post, set in concrete`; '' where it says none plainly."""
    word = read_word("post_shape", text)
    two = sum(words.search(text) is not None for words in _FAMILIES) > 1  # `square at the bottom, round above`
    if word or two or len(text) > _LONGEST or _DOUBT.search(text):
        return word.value if word else ""
    pieces = [w.value for piece in _PIECES.split(text) if len(piece.strip()) > 2 and (w := read_word("post_shape", piece))]
    said = {*pieces, *(shape for shape, words in _SAID.items() if words.search(text))}
    return said.pop() if len(said) == 1 else ""
