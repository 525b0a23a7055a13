"""Words of a list as people spell them: good, mendable, and known to say nothing; `nearest` for the rest."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from functools import cache, lru_cache

from pipeline.intake.survey.folding import fold_word
from pipeline.intake.survey.list_words import known_words, read_word
from schemas.column import Column
from schemas.languages import SPELLINGS

PASSED_OVER = ("-", "--", "---", "–", "—", ".", "/", "n/a", "na", "n.a.", "not applicable", "not available", "tbd", "tbc", "nil")
"""What people type into a cell to say nothing; it counts as blank only where a blank has no default."""

PASSED_OVER_MEASURES = ("unknown", *SPELLINGS["condition"]["unknown"], "not measured", "not taken")
PASSED_OVER_WISHES = ("any", "none", "no", "no wish", "no preference", "unknown", "any will do", "not asked")

_OPPOSITE = re.compile(
    r"\b(not|no|non|never|isn|without|inside|inner|internal|id|bore|radius)\b|^\s*(un(?!k)|in(?=[a-z]{4}))", re.IGNORECASE
)
"""Words that turn a meaning: `inside diameter` is near to `outside diameter` in letters only."""

_LONGEST_NOTHING = 40  # spaces included


def word_of(name: str, text: str) -> str | None:
    """The word of column `name`'s list that `text` says, or None."""
    word = read_word(name, text)
    return word.value if word else None


@cache
def _says_nothing(kind: str) -> frozenset[str]:
    words = {"code": PASSED_OVER_WISHES, "length": PASSED_OVER_MEASURES}.get(kind, ())
    return frozenset(" ".join(w.split()).casefold() for w in (*PASSED_OVER, *words))


def says_nothing(column: Column, text: str) -> bool:
    """Whether `text` in a cell of `column` only says that there is nothing to say."""
    if len(text) > _LONGEST_NOTHING:
        return False
    kind = column.kind if column.kind == "length" or not column.needed else ""
    return " ".join(text.split()).casefold() in _says_nothing(kind)


_MARKS = " ?~≈*!"


@lru_cache(maxsize=1024)
def suggestions(name: str, text: str) -> tuple[str, ...]:
    """The nearest words of column `name`'s list, nearest first; none for what says the opposite of a word."""
    if _OPPOSITE.search(text):
        return ()
    if plain := read_word(name, text.strip(_MARKS)):
        return (plain.value,)
    known = known_words(name)
    if len({known[w] for token in re.split(r"[^\w]+", text) if (w := fold_word(token)) in known}) > 1:
        return ()
    close = nearest(fold_word(text), known)
    return tuple(dict.fromkeys(known[c] for c in close))


def nearest(word: str, choices: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """The choices most like `word`, nearest first; none where nothing is near. Case does not count."""
    by_fold = {c.casefold(): c for c in choices}
    found = difflib.get_close_matches(word.casefold(), list(by_fold), n=most, cutoff=0.7)
    return tuple(by_fold[f] for f in found)
