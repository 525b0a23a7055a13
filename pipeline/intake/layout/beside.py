"""Posts side by side: headings that repeat for each post, `N pole size`, or `Post 1` over a group of columns."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.headings import Claim, claim
from schemas.post_words import NOT_ONE_POST, PLACES_OF_ONE_POST, SIDES, THINGS

_THINGS = THINGS | {"court", "basket", "of", "at", "for"}
_MEASURED = frozenset(("top", "bottom", "inner", "outer", "upper", "lower", "no"))
"""Sides that in a heading may say where on the post it was measured."""
_WHICH = (SIDES - _MEASURED) | {
    "first",
    "second",
    "third",
    "fourth",
    "1st",
    "2nd",
    "3rd",
    "4th",
    "a",
    "b",
    "c",
    "d",
    "i",
    "ii",
    "iii",
    "iv",
}
"""Words that tell one post of a court from another."""
_SECOND = frozenset(
    (
        "second",
        "2nd",
        "other",
        "another",
        "opposite",
        "segundo",
        "otro",
        "deuxième",
        "autre",
        "zweiter",
        "anderer",
        "outro",
        "altro",
    )
)
"""Words of a heading for the second of two posts, of which the first has no word."""
_SITE_COLUMNS = frozenset(("site_code", "site_name", "customer", "site_kind", "post_code"))
_WORDS = re.compile(r"[^\W_]+|#")


def _is_label(words: list[str], more: frozenset[str] = frozenset()) -> bool:
    """Whether words name one post of several: `N`, `north pole`, `Post 1`; by one of `more` words too."""
    rest = [w.casefold() for w in words if w.casefold() not in _THINGS and w != "#"]
    if len(rest) == 2 and all(w in _WHICH and len(w) > 1 for w in rest):  # `Left/near pole`
        return True
    return len(rest) == 1 and (rest[0] in _WHICH | more or re.fullmatch(r"\d{1,2}", rest[0]) is not None)


def key_of(label: str) -> str:
    """A label as it is compared: the words that tell posts apart (`N` of `N pole`)."""
    rest = [w.casefold() for w in _WORDS.findall(label) if w.casefold() not in _THINGS and w != "#"]
    return " ".join(rest[:1] if all(w in _WHICH for w in rest) else rest)


@lru_cache(maxsize=4096)
def group_label(text: str) -> str:
    """The words of a heading that names one post of several and nothing else; else ''."""
    words = _WORDS.findall(text)
    return " ".join(text.split()) if len(text) <= 40 and 0 < len(words) <= 4 and _is_label(words) else ""


_ENDS = frozenset(PLACES_OF_ONE_POST)
_NO_POST = frozenset(NOT_ONE_POST)


@lru_cache(maxsize=4096)
def column_group(text: str) -> str:
    """The words over a group of columns that are one post of several: `N pole`, or what lies there, `Road end`; else ''."""
    words = [w.casefold() for w in _WORDS.findall(text)]
    of_a_place = 1 < len(words) <= 4 and bool(_ENDS & set(words)) and not _NO_POST & set(words) and claim(text) is None
    return group_label(text) or (" ".join(text.split()) if of_a_place else "")


@lru_cache(maxsize=4096)
def labelled(text: str) -> tuple[str, Claim] | None:
    """The post that a heading is about, and what it claims: `N pole size [in]`, `Height (post 2)`; else None."""
    bare, unit = heading_unit(text)
    words = _WORDS.findall(bare)
    if not 1 < len(words) <= 8:
        return None
    for n in range(1, min(4, len(words))):
        for label, rest in ((words[:n], words[n:]), (words[-n:], words[:-n])):
            things = all(w.casefold() in _THINGS for w in rest)  # `côté nord`
            if _is_label(label, _SECOND) and (found := (None if things else _claimed(rest)) or _by_unit(rest, unit)):
                return " ".join(label), Claim(found.name, unit or found.unit, found.strength)
    return None


def label_and_rest(text: str) -> tuple[str, str] | None:
    """The post that a heading begins with and the words behind it: `Post 1`, `type`; else None."""
    words = _WORDS.findall(heading_unit(text)[0])
    splits = (n for n in range(min(3, len(words) - 1), 0, -1) if _is_label(words[:n]))
    n = next(splits, 0)
    return (" ".join(words[:n]), " ".join(words[n:])) if n else None


def _by_unit(words: list[str], unit: str) -> Claim | None:
    """What a post with a unit says: `Home end pole (in)` is its size."""
    found = claim(f"{' '.join(words)} ({unit})") if unit and {w.casefold() for w in words} <= _THINGS else None
    return found if found and found.name in ("post_size", "post_height") else None


def _claimed(words: list[str]) -> Claim | None:
    """What the rest of a labelled heading means: a column of a post's own."""
    found, alone = claim(" ".join(["post", *words])), claim(" ".join(words))
    found = alone if found is None or (alone and alone.strength > found.strength) else found
    return found if found and found.name not in _SITE_COLUMNS else None


_BODY = frozenset(
    ("post_shape", "post_size", "size_basis", "measured_with", "wall", "material", "post_height", "height_measured_with",
     "clear_length", "post_line", "post_base", "lean", "old_fittings", "condition", "quantity", "post_code")
)  # fmt: skip
"""Columns about the post itself; the others can stand once for all posts of a row."""


def accepted(labels: Mapping[int, str], claims: Mapping[int, Claim]) -> bool:
    """Whether headings with the names of posts are posts side by side: what is measured repeats under two names at least.

    Bare numbers may as well be two readings of one post: there both size and height must repeat, and no heading name a post.
    """
    under: dict[str, set[str]] = {}
    for n, label in labels.items():
        under.setdefault(claims[n].name, set()).add(key_of(label))
    repeated = {name for name, keys in under.items() if len(keys) > 1}
    if all(re.fullmatch(r"#?\d+", label) for label in labels.values()):
        return {"post_size", "post_height"} <= repeated and all(c.name != "post_code" for c in claims.values())
    return bool(repeated & {"post_size", "post_height", "post_shape"})


def beside_the_first(labels: Mapping[int, tuple[str, Claim]], claims: Mapping[int, Claim]) -> dict[int, tuple[str, Claim]]:
    """Headings of a second post, `2nd OD`, with those of the first, which have no label: `OD`."""
    second = {key_of(label) for label, _ in labels.values()}
    repeated = {found.name for _, found in labels.values()} & _BODY
    if len(second) != 1 or not second <= _SECOND or not {"post_size", "post_height"} <= repeated:
        return {}
    first = {n: ("1st", found) for n, found in claims.items() if n not in labels and found.name in repeated}
    return {**labels, **first}


def of_one_post(labels: Mapping[int, str], claims: Mapping[int, Claim], named: Mapping[int, str]) -> dict[int, str]:
    """Labels of the columns that are one post's own: a heading behind the last group that none repeats is all posts'.

    `named` are the cells of the upper row.
    """
    names: dict[str, set[str]] = {}
    for n, label in labels.items():
        names.setdefault(claims[n].name, set()).add(key_of(label))
    own = {n for n in labels if n in named or len(names[claims[n].name]) > 1 or claims[n].name in _BODY}
    return {n: label for n, label in labels.items() if n in own}
