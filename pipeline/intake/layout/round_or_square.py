"""A size in two columns: the diameter of round posts in one, the side of square posts in the other."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from pipeline.intake.layout.grid import Row
from pipeline.intake.survey.lay_headings import says_around
from schemas.heading_phrases import BEFORE_A_FIELD
from schemas.post_words import EITHER_HEADING, ROUND_HEADING, SQUARE_HEADING

_BEFORE_A_FIELD = re.compile(BEFORE_A_FIELD, re.IGNORECASE)
_ROUND, _SQUARE, _EITHER = (re.compile(p, re.IGNORECASE) for p in (ROUND_HEADING, SQUARE_HEADING, EITHER_HEADING))


def round_or_square(texts: Mapping[int, str], data: Sequence[tuple[int, Row]]) -> bool:
    """Whether two headings of a size are of round and of square posts, and no row has both."""
    if len(texts) != _TWO or any(all(n in row for n in texts) for _, row in data):
        return False
    if sorted(map(says_around, texts.values())) == [False, True]:  # `Around` and `Across`
        return True
    words = [_BEFORE_A_FIELD.sub("", t).lstrip("/").replace("_", " ") for t in texts.values()]
    says_round = [bool(_ROUND.search(t)) and not _of_a_side(t) for t in words]
    return sorted(says_round) == sorted(map(_of_a_side, words)) == [False, True]


_TWO = 2


def _of_a_side(heading: str) -> bool:
    return _SQUARE.search(heading) is not None or _EITHER.search(heading) is not None
