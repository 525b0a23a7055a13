"""Which columns a heading can mean by its words alone, where what stands below it says the one."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from pipeline.intake.layout.courts import is_court, pieces_of
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.heading_words import describes_a_site, says_a_kind, says_what_it_is
from pipeline.intake.survey.headings import claim, says_where, without_number
from pipeline.intake.survey.lay_headings import asks_where, lay_key, names_two_places, says_bore_or_side
from pipeline.intake.survey.words_of_headings import our_words
from schemas.heading_phrases import BEFORE_A_FIELD
from schemas.post_words import UNIT_HEADINGS
from schemas.several_meanings import SEVERAL_MEANINGS


@cache
def can_mean() -> dict[str, tuple[str, ...]]:
    """Columns that each folded heading with several meanings can mean."""
    found: dict[str, tuple[str, ...]] = {}
    for names, words in SEVERAL_MEANINGS:
        for word in words.split("|"):
            for key in {fold(word) or word.strip(), lay_key(word) or word.strip()}:
                found[key] = tuple(dict.fromkeys((*found.get(key, ()), *names)))
    return found


_BEFORE_A_FIELD = re.compile(BEFORE_A_FIELD, re.IGNORECASE)
_BRACKET = re.compile(r"\s*[\[(][^\])]*[\])]\s*$")
_BEFORE_UNITS = re.compile(rf"(?<=\w)\s+(?:{'|'.join(map(re.escape, UNIT_HEADINGS))})$", re.IGNORECASE)
"""`Item Unit`, where posts stand in columns behind one of units."""


@lru_cache(maxsize=4096)
def meanings_of(text: str) -> tuple[str, ...]:
    """Columns that a heading can mean."""
    bare = _BEFORE_A_FIELD.sub("", _BEFORE_UNITS.sub("", without_number(heading_unit(text)[0]).strip()))
    places = describes_a_site(our_words(bare)) or asks_where(bare) or is_court(bare) or names_two_places(bare)
    where = ("site_name",) if places or _of_grounds(bare) else ()
    of_a_kind = says_a_kind(bare) or says_what_it_is(bare)
    kinds = (*SEVERAL_MEANINGS[0][0], "post_size") if of_a_kind else ("post_size",) if says_bore_or_side(bare) else ()
    means = can_mean()
    known = means.get(fold(bare) or bare.rstrip(".")) or means.get(lay_key(bare), kinds)
    known = known or means.get(fold(_BRACKET.sub("", bare)), ())  # `Post (HSS or pipe)`
    return tuple(dict.fromkeys((*known, *where)))


def _of_grounds(heading: str) -> bool:
    """Whether a heading is over courts and other grounds: `Covered court / plaza`."""
    pieces = pieces_of(heading)
    named = [(c := claim(p)) is not None and c.name == "site_name" for p in pieces]
    return len(pieces) > 1 and all(n or is_court(p) or says_where(p) for n, p in zip(named, pieces, strict=True))
