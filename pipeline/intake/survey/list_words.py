"""Words of a list: what a cell of a choice column says, in the list's own words, in people's, or under a yes/no heading."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from pipeline.intake.survey.folding import fold, fold_word, stem
from pipeline.intake.survey.whole_questions import without_example, yes_or_no
from pipeline.intake.survey.words_of_headings import words_of
from schemas.heading_words import POST_WORDS, SAY_NOTHING
from schemas.languages import NO, SPELLINGS, YES
from schemas.post_words import A_PART, BUT, FILLERS, PIPE_ALONE
from schemas.survey import SURVEY
from schemas.yes_no import ASKS_MORE, NO_NEGATION, TAKEN_OFF, TELLING_WORDS, UNSAID, YES_NO, YesNo

InWords = Literal["", "words", "seller_words"]

_LONGEST = 120
_TOKEN = re.compile(r"[^\W_]+(?:['’][^\W_]+)?|[?~≈]")


_DOTTED = re.compile(r"(?<!\w)(?:[a-z]\.){2,4}(?!\w)")  # `m.s.`


@dataclass(frozen=True, slots=True)
class Word:
    """A value of a column's list, and how it was said ('' = in the list's own word)."""

    value: str
    how: InWords = ""


Seller = Mapping[str, Mapping[str, str]]
"""The seller's own words: value by folded word, by column."""

NO_WORDS: Seller = {}


def read_word(name: str, text: str, heading: str = "", seller: Seller = NO_WORDS) -> Word | None:
    """The value of column `name`'s list that `text` says under `heading`; None where it does not plainly say one.

    Several words in a cell count where all that are known say the same and the others change nothing; words that contradict
    each other, a `but`, a `not` or a mark of doubt are not read. Under a yes/no heading yes means what the heading asks.
    """
    own = _own(name).get(fold_word(text))
    question = question_of(heading, name)
    if own is not None and not (question and own in ("yes", "no")):
        return Word(own)
    mine = seller.get(name, {}).get(fold_word(text))
    if mine is not None:
        return Word(mine, "seller_words")
    if question and fold_word(text) in _folded(YES) | _folded(NO):
        answer = _answer(question, text)
        return Word(answer, "words") if answer else None
    found = _known(name, text) or _by_words(name, text) or (question and _answered(question, name, text))
    return Word(found, "words") if found else None


def rules_out(name: str, text: str, alone: bool = False) -> bool:
    """Whether one of the sentences of a text plainly says welded fittings (`old_fittings`) or a gooseneck (`post_line`).

    Unknown words beside do not matter here, since a post of which that is said gets no kit: a `not`, or what was removed, does.
    `alone`: only where nothing else is said, for what stands under a heading of another thing (`Old board`: `welded`).
    """
    word = dict(zip(("old_fittings", "post_line"), (w for w, _ in _TELLING[:2]), strict=True))[name]
    value = {"old_fittings": "fixed", "post_line": "gooseneck"}[name]
    if len(text) > 10 * _LONGEST or alone:
        return alone and word.fullmatch(text.strip(" .")) is not None
    pieces = re.split(r"[;,(]|\.(?=\s)", text)
    plain = any((found := read_word(name, piece)) and found.value == value for piece in pieces)
    if plain or _TAKEN_OFF.search(text):
        return plain
    said = [_TURNS_NOTHING.sub(" ", piece) for piece in pieces]
    return any(word.search(piece) and not _UNSAID.search(piece) and _says_no_other(name, piece, value) for piece in said)


def _says_no_other(name: str, piece: str, value: str) -> bool:
    """Whether a piece is no known word for another value; what is bent may be a gooseneck."""
    found = read_word(name, piece)
    return found is None or found.value in (value, "bent")


_TAKEN_OFF = re.compile(rf"\b(?:{TAKEN_OFF})\b", re.IGNORECASE)
_TURNS_NOTHING = re.compile(rf"\b(?:{NO_NEGATION})\b", re.IGNORECASE)
_UNSAID = re.compile(rf"\b(?:{UNSAID})\b|[?~]", re.IGNORECASE)


_ASKED = re.compile(
    r"\s*(?:[\[(]\s*)?\b(?:yes ?(?:/|or) ?no|y ?/ ?n|s ?/ ?n|o ?/ ?n|j ?/ ?n|"
    r"s[ií] ?/ ?no|oui ?/ ?non|ja ?/ ?nein|sim ?/ ?não)\b\s*[\])]?\s*\??\s*$",
    re.IGNORECASE,
)


@lru_cache(maxsize=4096)
def question(heading: str) -> tuple[YesNo | None, bool]:
    """The yes/no question that a heading asks, and whether it is plainly a question: `Straight?`, `Bent (Y/N)`."""
    bare = without_example(_ASKED.sub("", heading))
    found = _questions().get(fold(bare)) or _questions().get(fold(_AROUND.sub(" ", bare))) or _by_telling_word(bare)
    found = found or _questions().get(fold(yes_or_no(bare)))
    return found, found is not None and (bare != heading or heading.rstrip(" :*").endswith("?"))


_AROUND = re.compile(
    r"\b(?:is|are|was|the|a|this|it|does|post|pole|upright|poste|el|es|la|le|est|poteau|der|mast|ist|palo|il|è|o|é)\b",
    re.IGNORECASE,
)
"""Words round the one that a question asks for: `Pole is round`."""


def _by_telling_word(bare: str) -> YesNo | None:
    """The question of a heading that has a word for welded, for a gooseneck or for straight, and asks nothing else."""
    words = bare.split()
    found = [asked for word, asked in _TELLING if word.search(bare)]
    rest = _TURNS_NOTHING.sub(" ", re.sub(r"^\W*o\s", " ", bare, flags=re.IGNORECASE))
    for word, _ in _TELLING:
        rest = word.sub(" ", rest)
    if len(found) != 1 or len(words) > 10 or _ASKS_MORE.search(rest):
        return None
    if found == ["straight"] and len(words_of(bare) - {stem(fold(w)) for w in (*SAY_NOTHING, *POST_WORDS)}) > 1:
        return None
    return _questions()[fold(found[0])]


_TELLING = tuple((re.compile(rf"\b(?:{words})\b", re.IGNORECASE), asked) for words, asked in TELLING_WORDS)
_ASKS_MORE = re.compile(rf"\b(?:{ASKS_MORE})\b|/|#", re.IGNORECASE)


def question_of(heading: str, name: str) -> YesNo | None:
    """The yes/no question that a heading asks about column `name`, or None."""
    found = question(heading)[0] if heading else None
    return found if found and found.column == name else None


@cache
def _questions() -> dict[str, YesNo]:
    return {fold(h): q for q in YES_NO for h in q.headings}


def _answered(question: YesNo, name: str, text: str) -> str | None:
    """What yes or no with further words means: `Yes (2 brackets)`; `No - it curves over` under `Straight?`."""
    first, _, rest = text.strip().partition(" ")
    if fold_word(first) in _folded(NO):
        instead = _by_words(name, f"it {rest}") or known_words(name).get(fold_word(rest))
        return instead if instead and instead not in (question.yes, "none", "unknown") else None
    return _answer(question, text)


def _answer(question: YesNo, text: str) -> str | None:
    """What yes or no means; None where the cell says neither alone."""
    word = fold_word(text)
    if word in _folded(YES):
        return question.yes
    if word in _folded(NO):
        return question.no
    first, *rest = _TOKEN.findall(text.casefold()) or [""]
    known = FILLERS[""] | FILLERS.get(question.column, frozenset())
    return question.yes if first in _folded(YES) and all(w in known or w.isdigit() for w in rest) else None


def combined(name: str, answers: Sequence[tuple[str, str]]) -> str | None:
    """What several yes/no answers, (heading, cell) each, leave of column `name`'s list: one value, else unknown.

    A yes is its value, a no rules that value out; None where an answer is neither, or where they leave nothing.
    """
    left = set(SURVEY.column(name).values) - {"unknown"}
    for heading, text in answers:
        question, word = question_of(heading, name), read_word(name, text, heading)
        yes = fold_word(text) in _folded(YES)
        if word is None and (question is None or not (yes or fold_word(text) in _folded(NO))):
            return None
        if word is not None and word.value != "unknown":
            left &= {word.value}
        elif question is None:
            continue
        elif yes:
            left -= _RULED_OUT_BY_SOMETHING
        else:
            left -= {question.yes}
    if not left:
        return None
    return left.pop() if len(left) == 1 else "unknown"


_RULED_OUT_BY_SOMETHING = {"none", "sound"}
"""What a yes rules out where it says that there is something, and not what: `Old boards on?`, `Rust?`."""


@cache
def _folded(words: frozenset[str]) -> frozenset[str]:
    return frozenset(fold_word(w) for w in words)


@cache
def _own(name: str) -> dict[str, str]:
    """Folded word to word of the list itself, for one column."""
    return {fold_word(w): w for w in SURVEY.column(name).values}


@cache
def known_words(name: str) -> dict[str, str]:
    """Folded spelling to word of the list, for one column."""
    known = {fold_word(s): word for word, spellings in SPELLINGS.get(name, {}).items() for s in spellings}
    return known | _own(name)


def _known(name: str, text: str) -> str | None:
    """The value that a spelling says; of one long word also in another gender or number than the glossary's."""
    text = _RATED.sub("", text)
    word = fold_word(text)
    return known_words(name).get(word) or (_stems(name).get(stem(word)) if text.strip().isalpha() else None)


_RATED = re.compile(r"^\s*\d\s*[-–—:.)=]\s*(?=[^\W\d]{3})")
"""A grade in front of its word: `2 - Good`."""


@cache
def _stems(name: str) -> dict[str, str]:
    """Stem to value, for the stems that say one value only."""
    found: dict[str, set[str]] = {}
    for word, value in known_words(name).items():
        if word.isalpha():
            found.setdefault(stem(word), set()).add(value)
    return {stem: values.pop() for stem, values in found.items() if len(values) == 1 and len(stem) > _SHORT}


_SHORT = 3  # letters of a stem that can mean anything


@cache
def _longest(name: str) -> int:
    """Tokens in the longest spelling of a column."""
    spellings = [*SURVEY.column(name).values, *(s for words in SPELLINGS.get(name, {}).values() for s in words)]
    return max(len(_TOKEN.findall(s)) for s in spellings)


_EQUAL_SIDES = re.compile(
    r"(?<![\w.,])(\d+(?:[.,]\d+)?)\s*(?:mm|cm|in|\")?\s*[x×*]\s*\1(?![\d.,])\s*(?:mm\b|cm\b|in\b|\")?", re.IGNORECASE
)
"""`100 x 100` among the words of a shape."""


@lru_cache(maxsize=4096)
def _by_words(name: str, text: str) -> str:
    """The one value that the words of a cell say ('' = none, or not plainly)."""
    if name == "post_shape" and (equal := _EQUAL_SIDES.sub(" square section ", text)) != text:
        text = equal
    tokens = _TOKEN.findall(_DOTTED.sub(lambda m: m[0].replace(".", ""), text.casefold()))
    if not len(tokens) > 1 or len(text) > _LONGEST or SURVEY.column(name).kind != "choice" or name in ("soil_class", "exposure"):
        return ""
    at = 0
    found: set[str] = set()
    counted = False  # whether a number stands beside the words
    things = False  # whether a thing is named: no brackets is not yet a bare post
    while at < len(tokens):
        for length in range(min(_longest(name), len(tokens) - at), 0, -1):
            value = _known(name, " ".join(tokens[at : at + length]))
            if value and not (length == 1 and tokens[at] in BUT):
                found.add(value)
                at += length
                break
        else:
            number = re.fullmatch(r"x?[0-9]+x?", tokens[at]) is not None and name in ("old_fittings", "post_line", "post_base")
            counted = counted or number
            if tokens[at] in BUT or not (number or tokens[at] in FILLERS[""] or tokens[at] in FILLERS.get(name, ())):
                return ""
            things = things or tokens[at] in FILLERS.get(name, ())
            at += 1
    if name == "post_line" and found == {"straight", "gooseneck"}:  # straight up to its curve
        return "gooseneck"
    if name == "post_shape" and found == {"round", "square"} and PIPE_ALONE & set(tokens):  # a square pipe
        rest = " ".join(t for t in tokens if t not in PIPE_ALONE)
        return _known(name, rest) or _by_words(name, rest)
    if found == {"sound"} and A_PART & set(tokens):
        return ""
    if len(found) != 1 or ((things or counted) and found == {"none"}):
        return ""
    return found.pop()
