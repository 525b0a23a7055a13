"""A heading that is a whole question, as a form asks it: `How wide is the post, in millimetres?`."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold, stem
from pipeline.intake.survey.lay_headings import of_two_grounds
from pipeline.intake.survey.words_of_headings import words_of
from schemas.whole_questions import ASKING, EXAMPLES, LEAVES_NOTHING, QUESTIONS, Question

_LEAST, _MOST = 3, 26  # words of a question
_LONGEST = 200
_EXAMPLES = re.compile(EXAMPLES, re.IGNORECASE)
_NUMBERED = re.compile(r"^\s*(?:Q(?:uestion)?\s*)?\d{0,2}\s*[.):-]?\s*(?=[^\W\d])", re.IGNORECASE)
_UNITS = r"millimet(?:re|er)s?|mms?|centimet(?:re|er)s?|cms?|met(?:re|er)s?|inch(?:es)?|feet|foot"
_FEET_AND_INCHES = re.compile(r",?\s*\(?\bin feet (?:and|&) inches\b\)?", re.IGNORECASE)
_WITHIN = re.compile(rf",?\s*\(?\b(?:how many (?P<many>{_UNITS})|in (?:whole )?(?P<unit>{_UNITS}))\b\)?", re.IGNORECASE)
"""A unit within a question: `How many millimetres wide is it?`."""


def without_example(heading: str) -> str:
    """A heading without the example, or the advice how to answer, that stands behind it."""
    return _EXAMPLES.sub("", heading)


@lru_cache(maxsize=4096)
def whole_question(heading: str) -> tuple[str, str] | None:
    """The column that a whole question asks for, and its unit ('' where it says none); None where it is no such question."""
    found = _asked(heading)
    return (found[0].column, found[1]) if found else None


def size_asked(heading: str) -> str:
    """What the size is that a whole question asks for, where it says so: `How far is it around the post?`."""
    found = _asked(heading)
    return found[0].basis if found else ""


def yes_or_no(heading: str) -> str:
    """A known heading of yes and no that asks the same as a whole question; '' where there is none."""
    found = _asked(heading)
    if found is None or not found[0].answer or re.search(r"\bor (?:does|is|are)\b|\bwhat\b", heading, re.IGNORECASE):
        return ""
    rules_out = found[0].column == "old_fittings" and words_of(heading) & _folded(LEAVES_NOTHING)
    return "anything attached" if rules_out else found[0].answer


@lru_cache(maxsize=4096)
def _asked(heading: str) -> tuple[Question, str] | None:
    if len(heading) > _LONGEST:
        return None
    bare, unit = _without_unit(_NUMBERED.sub("", without_example(" ".join(heading.split()))))
    words = words_of(bare)
    if not _LEAST <= len(words) <= _MOST or of_two_grounds(words):
        return None
    plain = bare.casefold()
    found = [q for q in QUESTIONS if _is_asked(q, words, plain)]
    return (found[0], unit) if len({q.column for q in found}) == 1 else None


def _is_asked(question: Question, words: frozenset[str], plain: str) -> bool:
    """Whether all words are those of one question."""
    if not words <= _folded(ASKING | question.may) or not all(words & _folded(one) for one in question.must):
        return False
    shown = not question.shows or re.search(question.shows, plain)
    return bool(shown) and not (question.never and re.search(question.never, plain))


def _without_unit(text: str) -> tuple[str, str]:
    """A question without the unit that it says, and that unit."""
    bare, unit = heading_unit(text.rstrip(" ?*:."))
    if unit:
        return bare, unit
    if m := _FEET_AND_INCHES.search(text):
        return f"{text[: m.start()]} {text[m.end() :]}", heading_unit("x [ft-in]")[1]
    found = list(_WITHIN.finditer(text))
    if len(found) != 1:
        return text, ""
    m = found[0]
    unit = heading_unit(f"x [{m['many'] or m['unit']}]")[1]
    return f"{text[: m.start()]} {'how much' if m['many'] else ''} {text[m.end() :]}", unit


@cache
def _folded(words: frozenset[str]) -> frozenset[str]:
    return frozenset(stem(fold(w)) for w in words)
