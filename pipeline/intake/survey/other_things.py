"""Headings, titles and cells that speak of other things than basketball posts: trees, signs, light poles, what is sold."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold, stem
from pipeline.intake.survey.words_of_headings import words_of
from schemas.heading_words import (
    AND_WORDS,
    GOALS,
    KINDS,
    NAMES,
    NUMBERS,
    OF_A_SALE,
    OF_OTHER_POSTS,
    OF_THE_GAME,
    OF_WORDS,
    OTHER_THINGS,
    OTHER_USES,
    OTHERS_IN_TITLES,
    PLACES,
    POST_WORDS,
    SAY_NOTHING,
    THINGS_OF_A_GROUND,
)


def is_a_sale(heading: str) -> bool:
    """Whether a heading stands only in a list of what is sold or ordered: `Unit price`."""
    return fold(heading_unit(heading)[0]) in {fold(w) for w in OF_A_SALE}


def of_other_posts(heading: str) -> bool:
    """Whether a heading stands only over other posts than those of the game: `Luminaire`, `Tetherball pole`."""
    return bool(words_of(heading) & _folded(OF_OTHER_POSTS))


def of_other_things(heading: str) -> bool:
    """Whether a heading says that the rows are other things than posts: `Tree ID`, `Species`."""
    words = words_of(heading)
    return bool(words & _folded(OTHER_THINGS)) and words <= _folded(OTHER_THINGS | NUMBERS | NAMES | KINDS)


@lru_cache(maxsize=4096)
def is_another_thing(text: str) -> bool:
    """Whether a cell names another thing than a basketball post, and nothing else: `Bench`, `Light pole`."""
    words = words_of(text) if len(text) <= _LONGEST_THING else frozenset()
    for_else = words & _folded(OTHER_USES) and words & _folded(POST_WORDS | GOALS)
    beside = POST_WORDS | SAY_NOTHING | PLACES | GOALS | OTHER_USES
    return bool(for_else or words & _folded(THINGS_OF_A_GROUND)) and words <= _folded(THINGS_OF_A_GROUND | beside)


_LONGEST_THING = 40  # characters


_OF_SCHOOLS = re.compile(
    r"\b(?:rede?|rete|réseau) (?=municipal|escolar|p[úu]blica|estadual|estatal|scolastica|"
    r"scolaire|de (?:ensino|escolas|escuelas|colegios))",
    re.IGNORECASE,
)
"""`Rede municipal de ensino`: a network of schools, and no net."""


@lru_cache(maxsize=4096)
def is_over_other_things(title: str) -> bool:
    """Whether a title speaks of other posts than those of the game, or of other things: `Volleyball posts`, `Farolas`.

    What stands beside the posts counts, `Basketball court light poles`, but where the game is named with it by an `and`.
    """
    words = [fold(w) for w in re.findall(r"[^\W\d_]+|&", _OF_SCHOOLS.sub(" ", title).replace("/", " & "))]
    posts, uses = _folded(POST_WORDS | GOALS), _folded(OTHER_USES)
    game = [bool(re.match(OF_THE_GAME, w)) for w in words]
    for i in (i for i, w in enumerate(words) if stem(w) in posts):
        behind = next((n for n in range(i + 1, len(words)) if words[n] not in OF_WORDS), i)
        for n in {i - 1, behind} - {i, -1}:
            with_the_game = any(game[k] for k in (n - 2, n + 2) if 0 <= k < len(words) and words[(k + n) // 2] in AND_WORDS)
            if stem(words[n]) in uses and not with_the_game:
                return True
    others = re.search(rf"\b(?:{OTHERS_IN_TITLES})\b", title, re.IGNORECASE)
    return others is not None and (not any(game) or others[0].casefold() in words)


@cache
def _folded(words: frozenset[str]) -> frozenset[str]:
    return frozenset(stem(fold(w)) for w in words)
