"""Headings in lay words: how far round a post is, how far it stands up, what shape it is in."""

from __future__ import annotations

import re
from functools import lru_cache

from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.words_of_headings import folded_words, words_of
from schemas.heading_words import AROUND, BESIDE_AROUND, POST_WORDS, SAY_NOTHING
from schemas.headings_of_some_posts import BOTH, OF_A_GROUND_ITSELF, OF_ROUND, OF_SQUARE, PADS, SOME_GROUNDS, WHOSE_GROUND
from schemas.lay_headings import (
    AROUND_ALONE,
    BORES,
    GROUNDS_TO_STAND_ON,
    INCHES,
    NOMINAL,
    SHAPE_THAT_IT_IS_IN,
    SIDES_BESIDE,
    SIZE_OF_PIPE,
    UP_FROM,
    UP_TO_THE_TOP,
    WHERE_IT_IS,
)

_SHAPE_IT_IS_IN = re.compile(SHAPE_THAT_IT_IS_IN, re.IGNORECASE)


def asks_what_shape_it_is_in(heading: str) -> bool:
    """Whether a heading asks how a post is kept: `What kind of shape it's in`."""
    return _SHAPE_IT_IS_IN.fullmatch(heading.strip()) is not None


def lay_key(heading: str) -> str:
    """A heading as lay ones are compared: without `the`, `is` and `it`."""
    return fold(_SMALL_WORDS.sub(" ", heading)) or fold(heading)


_SMALL_WORDS = re.compile(
    r"\b(?:the|a|an|is|it|its|it['’]s|are|was|were|this|that|does|do|did|your|our|their|each)\b", re.IGNORECASE
)


def asks_where(heading: str) -> bool:
    """Whether a heading asks where posts are, and not where on a court: `Where we practice`."""
    return _WHERE_IT_IS.fullmatch(heading.strip()) is not None


_WHERE_IT_IS = re.compile(WHERE_IT_IS, re.IGNORECASE)


_OF_ROUND = re.compile(rf"^\s*{OF_ROUND}", re.IGNORECASE)
_OF_SQUARE = re.compile(rf"^\s*{OF_SQUARE}", re.IGNORECASE)
_BOTH = re.compile(BOTH, re.IGNORECASE)


def of_one_shape(heading: str) -> str:
    """What is measured of posts of one shape, `Round: inches around`; '' where none is in front, or it is a square's girth."""
    round_ones = _OF_ROUND.sub("", heading)
    if round_ones != heading:
        return round_ones
    square = _OF_SQUARE.sub("", heading)
    return "" if square == heading or says_around(heading_unit(square)[0]) else square


_PADS = re.compile(PADS, re.IGNORECASE)
_OF_A_GROUND_ITSELF = re.compile(OF_A_GROUND_ITSELF, re.IGNORECASE)
_WHOSE_GROUND = re.compile(WHOSE_GROUND, re.IGNORECASE)
_TWO_GROUNDS = re.compile(rf"(?:{SOME_GROUNDS})s?(?:\s*/\s*|\s+(?:or|and)\s+)(?:{SOME_GROUNDS})s?(?: name)?", re.IGNORECASE)


def above_ground(heading: str) -> str:
    """A heading with `ground` for one that is a ground only behind a word for above: `Ht above pad`."""
    return _PADS.sub(r"\g<up>ground", heading)


def of_a_ground_itself(heading: str) -> bool:
    """Whether a heading is over how high a ground itself lies: `Slab height`."""
    return _OF_A_GROUND_ITSELF.fullmatch(heading.strip()) is not None


def without_owner(heading: str) -> str:
    """A heading without whose ground it is: `Twp. park`; '' where it says no such thing in front."""
    m = _WHOSE_GROUND.match(heading.strip())
    return heading.strip()[m.end() :] if m else ""


def names_two_places(heading: str) -> bool:
    """Whether a heading is two words for places: `Hall / lot`."""
    return _TWO_GROUNDS.fullmatch(heading.strip()) is not None


def without_both(heading: str) -> str:
    """A heading without the words by which its column is both posts' of a row: `OD both ends`."""
    return " ".join(_BOTH.sub(" ", heading).split())


@lru_cache(maxsize=4096)
def says_around(heading: str) -> bool:
    """Whether a heading says the way round the post, and nothing else: `Around the pole`."""
    words = words_of(_OF_ROUND.sub("", heading))
    beside = AROUND | BESIDE_AROUND | POST_WORDS | SAY_NOTHING
    alone = len(words) == 1 and words <= folded_words(AROUND_ALONE)
    return alone or (len(words) > 1 and bool(words & folded_words(AROUND)) and words <= folded_words(beside))


@lru_cache(maxsize=4096)
def says_nominal(heading: str) -> bool:
    """Whether a heading says a pipe's nominal size, and nothing else: `Nom. pipe size (NPS)`."""
    words = words_of(heading)
    named = words & folded_words(NOMINAL) and (
        words & folded_words(SIZE_OF_PIPE) or words & folded_words(frozenset(("nps", "ips")))
    )
    return bool(named) and words <= folded_words(NOMINAL | SIZE_OF_PIPE | POST_WORDS | SAY_NOTHING | INCHES)


def says_bore_or_side(heading: str) -> bool:
    """Whether a heading is of pipes by their names and of tubes by their sides: `Nominal bore / side`."""
    words = words_of(heading)
    named = words & folded_words(BORES) and words & folded_words(SIDES_BESIDE)
    return bool(named) and words <= folded_words(BORES | SIDES_BESIDE | SIZE_OF_PIPE | POST_WORDS | SAY_NOTHING | INCHES)


def of_two_grounds(words: frozenset[str]) -> bool:
    """Whether one kind of ground may be what stands above another: `Height of concrete above ground`."""
    return len(words & folded_words(GROUNDS_TO_STAND_ON)) > 1


def stands_up(words: frozenset[str]) -> bool:
    """`Sticks out of the dirt`, `Up from blacktop`: how far something stands up from one kind of ground."""
    one_ground = len(words & folded_words(GROUNDS_TO_STAND_ON)) == 1
    to_the_top = words & folded_words(frozenset(("from", "to", "2"))) and words & folded_words(UP_TO_THE_TOP)
    return one_ground and bool(words & folded_words(UP_FROM) or to_the_top)
