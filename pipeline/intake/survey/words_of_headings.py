"""The words of a heading as they are compared: without accents, endings and articles, words written together apart."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from pipeline.intake.survey.folding import fold, stem
from schemas.abbreviations import RUN_TOGETHER, SAME_WORDS
from schemas.heading_words import COMPOUND, IN_COMPOUNDS

_SMALL = re.compile(r"\b(?:[dl]|qu|dell|all|dall|nell|sull|un)['’]|(?<!\w)[àèéÀÈÉ](?!\w)", re.IGNORECASE)
"""Articles and small words that no post is called: `l'altezza`, `à`."""
_ARTICLES = re.compile(
    r"\b[ao]s? (?=(?:topo|piso|ch[ãa]o|solo|terreno|pavimento|punta|ponta|tope|partir|la|cima)\b)", re.IGNORECASE
)
"""Articles before a place: `até o topo`, `del piso a la punta`; alone they name a side of a court."""
_OUTSIDE_IT = re.compile(r"\best\.(?=\W|$)|(?<=_)est(?=_|$)", re.IGNORECASE)
"""`Diam. est.`: esterno."""
_OVER = re.compile(r"\bs/ ?(?=\w{3})", re.IGNORECASE)
"""`s/suelo`: over the ground."""
_OVERALL = re.compile(r"\bo\s?/\s?a(?:ll)?\b\.?|\bo\.a\.|\boa\b", re.IGNORECASE)
_OUTSIDE = re.compile(r"\bo\s?/\s?s(?:ide)?\b\.?|\bouts(?:d)?\b\.?", re.IGNORECASE)
"""`Size o/a`, `Width o/s`: overall, outside."""
_DOTTED = re.compile(r"(?<!\w)(?:[A-Za-z]\.){2,4}(?!\w)")  # `G.L.`
_COMPOUND = re.compile(COMPOUND)


@lru_cache(maxsize=16384)
def words_of(heading: str) -> frozenset[str]:
    """The folded words of a heading, without a number in front."""
    plain = re.sub(
        r"^\s*\d{1,2}\s*[.):]\s*|['’]s\b",
        "",
        re.sub(r"\b[oO]\.\s?[dD]\b", "OD", _DOTTED.sub(lambda m: m[0].replace(".", ""), heading)),
    )
    plain = _OVERALL.sub(" overall ", _OUTSIDE.sub(" outside ", plain))
    plain = _OUTSIDE_IT.sub("esterno ", _ARTICLES.sub("", _SMALL.sub(" ", plain)))
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", _OVER.sub("sobre ", plain)).replace("_", " ")
    words = {fold(w) for w in re.findall(r"[^\W_]+", apart)} - {""}
    parts = {w: m for w in words if (m := _COMPOUND.fullmatch(w))}
    apart_again = {fold(p) for m in parts.values() for p in (m[1], IN_COMPOUNDS.get(m[2], m[2]))}
    return frozenset(stem(w) for w in (words - parts.keys()) | apart_again)


@cache
def folded_words(words: frozenset[str]) -> frozenset[str]:
    """A set of words as those of headings are compared."""
    return frozenset(stem(fold(w)) for w in words)


_RUN_TOGETHER = re.compile(RUN_TOGETHER, re.IGNORECASE)


@lru_cache(maxsize=4096)
def our_words(heading: str) -> str:
    """The heading with our own word for each thing (`Pole base` is `Post base`)."""
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", heading).replace("_", " ")
    apart = _TOP.sub("top", re.sub(r"\b[xX][- ](?=sec)", "x", apart, flags=re.IGNORECASE))
    parts = (_RUN_TOGETHER.fullmatch(w) for w in re.findall(r"\w+", apart.casefold()))
    words = [
        w for found, m in zip(re.findall(r"\w+", apart.casefold()), parts, strict=True) for w in (m.groups() if m else (found,))
    ]
    return " ".join(SAME_WORDS.get(w, w) for w in words)


_TOP = re.compile(r"\bT\.\s?O\.(?:\s?P\b\.?)?|\bT/O\b|\bT\.?O\.?P\b", re.IGNORECASE)
"""`T.O. post`, `T.O.P.`"""
