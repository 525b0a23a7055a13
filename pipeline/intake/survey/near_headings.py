"""A heading that is not known: which columns it may mean, by its words or by what its cells fit and nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import get_close_matches
from functools import lru_cache

from pipeline.intake.survey.folding import fold, fold_word
from pipeline.intake.survey.heading_words import nearly
from pipeline.intake.survey.headings import MEANINGS, WEAK, claim
from pipeline.intake.survey.list_words import question, read_word
from schemas.heading_phrases import OF_NOW
from schemas.languages import NO, SPELLINGS, YES
from schemas.survey import BARE_THINGS, SURVEY

NOT_READ = "(not read) "
"""Stands before a heading that the seller says means nothing: it claims no column and is not asked about."""

_OF_NOW = re.compile(OF_NOW, re.IGNORECASE)
_NEAR = 0.86
_LISTS = tuple(
    c.name for c in SURVEY.columns if c.kind == "choice" and c.name in SPELLINGS and c.name not in ("soil_class", "exposure")
)
_ENOUGH = 2  # cells that fit, before a column is asked about for what stands in it


def may_mean(heading: str, cells: Iterable[str] = ()) -> tuple[str, ...]:
    """Names of the columns that an unknown heading may mean, likeliest first; () where there is nothing to ask.

    `cells` are the texts below it, blank ones left out. Nothing is asked of a heading that names another thing of the
    court (`Board material`), nor of numbers: what they measure is never guessed.
    """
    if (
        claim(heading)
        or heading.startswith(NOT_READ)
        or _OF_NOW.search(heading)
        or {fold(w) for w in re.findall(r"\w+", heading)} & BARE_THINGS
    ):
        return ()
    return _by_words(heading) or _by_cells(tuple(cells))


@lru_cache(maxsize=1024)
def _by_words(heading: str) -> tuple[str, ...]:
    """Columns whose headings are in the heading, or nearly it."""
    bare = re.sub(r"\s*[\[({].*", "", heading, flags=re.DOTALL)
    known = claim(bare) if bare and bare != heading else None
    if known and known.strength > WEAK:
        return (known.name,)
    folded = fold(bare)
    sure = {word: name for word, (name, strength) in MEANINGS.items() if strength > WEAK}
    near = get_close_matches(folded, list(sure), n=3, cutoff=_NEAR) if len(folded) > 3 else []
    found = [sure[n] for n in near] or [name for phrase in _phrases(bare) if (name := sure.get(phrase))]
    asked = question(bare)[0]
    found += [asked.column] if asked else []
    return tuple(dict.fromkeys(found)) or tuple(filter(None, [nearly(bare)]))


def _phrases(heading: str) -> list[str]:
    """Runs of two words and more of a longer heading, longest first, folded."""
    words = re.findall(r"\w+", heading)
    spans = [(a, b) for a in range(len(words)) for b in range(a + 2, len(words) + 1) if b - a < len(words)]
    return [fold(" ".join(words[a:b])) for a, b in sorted(spans, key=lambda s: (s[0] - s[1], s[0]))]


def _by_cells(cells: tuple[str, ...]) -> tuple[str, ...]:
    """The one list column whose words every cell says, where no other column's words do."""
    words = tuple(dict.fromkeys(fold_word(c) for c in cells if c.strip()))
    neither = {fold_word(w) for w in (*YES, *NO)}
    if len(cells) < _ENOUGH or not words or set(words) <= neither or any(c.isdigit() for c in words):
        return ()
    fit = [name for name in _LISTS if all(read_word(name, c) for c in cells)]
    return tuple(fit) if len(fit) == 1 else ()
