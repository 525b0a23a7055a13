"""Names of places: whether what stands under `Where` or `Court` names grounds, though by none of the words for one."""

from __future__ import annotations

import re
from collections.abc import Sequence

from pipeline.intake.layout.courts import is_court
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.heading_words import names_a_post, speaks_of_posts
from pipeline.intake.survey.post_cells import is_same_as_above
from pipeline.reading.book import Cell
from schemas.grounds import BEGIN_NAMES_TOO, COURTS, NAMES_OF_COURTS, REMARKS, SAYS_WHERE_ON_A_GROUND, WITHIN_A_GROUND
from schemas.lay_headings import WHOSE_OR_WHAT
from schemas.post_words import NUMBERS, SIDES
from schemas.several_meanings import POSTS_IN_TITLES

_LONGEST = 60
_REMARK = re.compile(REMARKS, re.IGNORECASE | re.DOTALL)
_OF_POSTS = re.compile(rf"\b(?:{POSTS_IN_TITLES}|goals?|list|survey|inventory|league|check|walk|season|visit)\b", re.IGNORECASE)
_COURT = re.compile(rf"\b{COURTS}\b", re.IGNORECASE)
_A_COURT = re.compile(rf"\b(?:{COURTS}|muga|blacktop|kickabout|lot|hardcourt|schulhof|pausenhof)\b", re.IGNORECASE)
_ON_A_GROUND = re.compile(rf"\b(?:{SAYS_WHERE_ON_A_GROUND})\b", re.IGNORECASE)
_OF_NO_NAME = WITHIN_A_GROUND | SIDES | NAMES_OF_COURTS | NUMBERS.keys()


def is_place_name(text: str) -> bool:
    """Whether a text is like the name of a ground of its own: `Bixby Sandlot`, and not `Main court`, `by the swings`, `Red`."""
    words = re.findall(r"[^\W\d_]+(?:['’.][^\W\d_]+)*", text)
    own = [w for w in words if w[0].isupper() and len(w) > 1 and w.casefold() not in _OF_NO_NAME]
    begins = bool(words) and text.strip()[0].isalnum() and (words[0][0].isupper() or text.strip()[0].isdigit())
    whole = len(text) <= _LONGEST and (begins_like_a_name(text) or not _REMARK.fullmatch(text)) and not _ON_A_GROUND.search(text)
    if speaks_of_posts(re.sub(r"\d+", " ", text)):  # `Basketball 1`
        return False
    return bool(own) and begins and whole and any(len(w) > 2 for w in own)


def begins_like_a_name(text: str) -> bool:
    """Whether a text begins with a word of which names and remarks are made, and goes on as a name: `Old Mill Lot`."""
    words = text.split()
    named = len(words) > 1 and all(w[0].isupper() and w.strip(".,'’-").isalpha() for w in words)
    return named and words[0].casefold() in BEGIN_NAMES_TOO and not _OF_POSTS.search(text)


def names_a_court(text: str) -> bool:
    """Whether a text is the name of a ground that is a court: `Clear Lake Court`, and not `Crew 3 hoop posts`."""
    return is_place_name(text) and _A_COURT.search(text) is not None and not names_a_post(text)


def is_within_a_ground(text: str) -> bool:
    """Whether all words of a text are those of parts of a ground: `north court 2`, `Playground`."""
    return set(re.findall(r"[^\W\d_]+", text.casefold())) <= WITHIN_A_GROUND | SIDES


def is_on_a_ground(text: str) -> bool:
    """Whether a text says where on a ground, and not on which: `Behind the gym`."""
    return _ON_A_GROUND.match(text.strip()) is not None and not ground_in(text)


_MOST_OF_THEM = 2 / 3
_WHOSE_OR_WHAT = frozenset(fold(w) for w in WHOSE_OR_WHAT.split("|"))


def name_places(heading: str, cells: Sequence[Cell]) -> bool:
    """Whether every cell under a heading that says where names a place, or is a mark for the same as above.

    Under `Court` they can be the courts of one ground: several names of two words are wanted, few of one, and not all courts.
    """
    texts = [str(c.value).strip() for c in cells if not is_same_as_above(str(c.value))]
    if not texts or any(c.kind != "text" for c in cells) or not all(is_place_name(t) or ground_in(t) for t in texts):
        return False
    named = {fold(t): len(t.split()) > 1 for t in texts}
    several = sum(named.values()) > 1 and sum(named.values()) >= _MOST_OF_THEM * len(named)
    if fold(heading) in _WHOSE_OR_WHAT:
        return several or all(named.values())
    if not is_court(heading):
        return True
    return several and not all(_COURT.search(t) for t in texts)
