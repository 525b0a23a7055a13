"""What stands in a cell instead of a value of its own: a mark for the same as above, a name for several posts."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from schemas.post_words import ALL, AND, BOTH, NUMBERS, SAME_AS_ABOVE, SAME_MARKS, SAME_SIGNS, SAME_WITH_STOP, SIDES, THINGS, TO

_LONGEST = 60
_MOST_POSTS = 500


@lru_cache(maxsize=4096)
def is_same_as_above(text: str) -> bool:
    """Whether a cell holds nothing but a mark or a word for `the same as above`: `"`, `''`, `,,`, `-"-`, `do.`, `ditto`."""
    word = " ".join(text.split()).casefold()
    if not word or len(word) > _LONGEST:
        return False
    if set(word) <= SAME_MARKS:
        return any(sign in word for sign in SAME_SIGNS)
    return word in SAME_WITH_STOP or word.strip(" .\"'()[]-–—*") in SAME_AS_ABOVE


@dataclass(frozen=True, slots=True)
class PostsNamed:
    """Several posts named in one Post cell.

    `number` is how many, None where that is not said (`all`); `codes` their own names, () where they have none (`both`).
    Not `sure` where the whole may be one post's code as well: `1-4` or `3/4`, which depends on the site's other posts.
    """

    number: int | None
    codes: tuple[str, ...]
    form: Literal["list", "range", "number", "all"]
    sure: bool = True


@lru_cache(maxsize=4096)
def posts_named(text: str) -> PostsNamed | None:
    """The posts that a Post cell names where it names more than one, or all; None where it is one post's code."""
    plain = " ".join(text.replace("–", "-").replace("—", "-").split()).strip(" .;,")
    if not plain or len(plain) > _LONGEST:
        return None
    return _counted(plain.casefold()) or _range(_bare(plain)) or _listed(plain)


def _bare(text: str) -> str:
    """The words of `text` without those that name nothing (`post`, `the`, `no.`), which only stand at its ends."""
    words = text.split()
    while len(words) > 1 and words[0].casefold().rstrip(".:") in THINGS and not _is_side(words):
        words = words[1:]
    while len(words) > 1 and words[-1].casefold().rstrip(".") in THINGS and not _is_side(words[::-1]):
        words = words[:-1]
    return " ".join(words)


def _is_side(words: list[str]) -> bool:
    """Whether the first word is a side of its own beside a sign (`NO & SO`)."""
    return words[0].casefold() in SIDES and words[1] in "&+,"


def _counted(text: str) -> PostsNamed | None:
    """`both`, `pair of posts`, `all`, `all 4`, `4 posts`, `four posts`."""
    words = text.split()
    bare = " ".join(w for w in words if w.rstrip(".") not in THINGS and w not in ("of", "de", "di", "von"))
    if (text if text in BOTH else bare) in BOTH:
        return PostsNamed(2, (), "number")
    if (text if text in ALL else bare) in ALL:
        return PostsNamed(None, (), "all")
    rest = words[1:] if words[0] in ALL and len(words) > 1 else words
    if m := _TIMES.fullmatch(text):  # `east x2`
        number = int(m["behind"] or m["before"])
        return PostsNamed(number, (), "number") if 1 < number <= _MOST_POSTS else None
    number = int(rest[0]) if re.fullmatch(r"[0-9]{1,3}", rest[0]) else NUMBERS.get(rest[0], 0)
    things = {w.rstrip(".") for w in rest[1:]}
    plain = things <= THINGS and (things or len(rest) < len(words) or not rest[0].isdigit())
    return PostsNamed(number, (), "number") if plain and 1 < number <= _MOST_POSTS else None


_TIMES = re.compile(r"\D*[^\W\d]\s+[(\[]?[x×]\s?(?P<behind>\d{1,2})[)\]]?|(?P<before>\d{1,2})\s?[x×]\s+\D+", re.IGNORECASE)
_END = r"(?P<{0}>[^\W\d]{{0,4}}[ .-]?)(?P<{1}>\d{{1,4}})"
_ENDS = re.compile(rf"{_END.format('p', 'a')} ?(?P<to>-|{'|'.join(TO)}|\.\.+|…) ?{_END.format('q', 'b')}", re.IGNORECASE)
_LETTERS = re.compile(rf"(?P<a>[A-Za-z])(?P<to> ?- ?| (?:{'|'.join(TO)}) )(?P<b>[A-Za-z])", re.IGNORECASE)


def _range(text: str) -> PostsNamed | None:
    """`1 to 4`, `P1-P4`, `A to D`; `1-4` and `P1-4`, which may be a code, are not sure."""
    if m := _ENDS.fullmatch(text):
        first, last, prefix, again = int(m["a"]), int(m["b"]), m["p"], m["q"]
        if again.strip() and _bare(f"{again} x") != "x" and again.strip(" .-").casefold() != prefix.strip(" .-").casefold():
            return None
        if not first < last < first + _MOST_POSTS:
            return None
        sure = m["to"] != "-" or bool(again.strip(" .-"))
        width = len(m["a"]) if m["a"].startswith("0") else 1
        prefix = "" if prefix.strip(" .").casefold() in THINGS else prefix
        return PostsNamed(last - first + 1, tuple(f"{prefix}{n:0{width}d}" for n in range(first, last + 1)), "range", sure)
    m = _LETTERS.fullmatch(text)
    if m is None or not m["a"] < m["b"] or m["a"].isupper() != m["b"].isupper():
        return None
    if {m["a"].casefold(), m["b"].casefold()} <= SIDES:
        return PostsNamed(2, (m["a"], m["b"]), "list", m["to"].strip() != "-")
    codes = tuple(chr(c) for c in range(ord(m["a"]), ord(m["b"]) + 1))
    return PostsNamed(len(codes), codes, "range", m["to"].strip() != "-")


_BETWEEN = re.compile(rf"\s*[&+;,]\s*(?:(?:{'|'.join(AND)})\s+)?|\s+(?:{'|'.join(AND)})\s+", re.IGNORECASE)
_STROKE = re.compile(r"\s*/\s*")
_NUMBERED = re.compile(r"[^\W\d]{0,5}[ .#-]?\d{1,4}[^\W\d]?", re.IGNORECASE)
_THOUSANDS = re.compile(r"\d{1,3},\d{3}")


def _listed(text: str) -> PostsNamed | None:
    """`N & S`, `1, 2, 3`, `E + W`, `North post and South post`; `3/4`, which may be a code, is not sure."""
    stroke = not _BETWEEN.search(text)
    pieces = list((_STROKE if stroke else _BETWEEN).split(text))
    if len(pieces) < 2 or not all(pieces):
        return None
    codes: list[str] = []
    sure = not stroke and not _THOUSANDS.fullmatch(text)
    for piece in map(_bare, pieces):
        inner = _range(piece)
        if inner:
            sure = sure and inner.sure
            codes += inner.codes
        elif _is_name(piece):
            codes.append(piece)
        else:
            return None
    codes = _with_prefix(codes)
    if len({c.casefold() for c in codes}) < len(codes):
        return None
    return PostsNamed(len(codes), tuple(codes), "list", sure)


def _is_name(piece: str) -> bool:
    """Whether a piece of a list is a post's name by itself: a side, a letter, a number with or without letters before it."""
    word = piece.casefold().rstrip(".")
    return word in SIDES or re.fullmatch(r"[a-z]", word) is not None or _NUMBERED.fullmatch(word) is not None


def _with_prefix(codes: Iterable[str]) -> list[str]:
    """`P1, 2, 3`: the letters of the first stand for the others too, where those have none."""
    listed = list(codes)
    m = re.fullmatch(r"([^\W\d]+[ .#-]?)\d+", listed[0])
    rest = listed[1:]
    return [listed[0], *(f"{m[1]}{c}" for c in rest)] if m and rest and all(c.isdigit() for c in rest) else listed
