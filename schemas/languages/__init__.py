"""The survey's glossary in six languages: every heading and every word of a list, each with one meaning."""

from __future__ import annotations

from collections import defaultdict

from schemas.languages.english import ENGLISH
from schemas.languages.french import FRENCH
from schemas.languages.german import GERMAN
from schemas.languages.italian import ITALIAN
from schemas.languages.language import Language, split
from schemas.languages.portuguese import PORTUGUESE
from schemas.languages.spanish import SPANISH
from schemas.survey import SURVEY, WEAK_SYNONYMS, YES_NO

__all__ = ["HEADINGS", "LANGUAGES", "NO", "SPELLINGS", "WEAK_HEADINGS", "YES", "Language", "split"]

LANGUAGES: tuple[Language, ...] = (ENGLISH, SPANISH, FRENCH, GERMAN, PORTUGUESE, ITALIAN)


YES = frozenset(w for language in LANGUAGES for w in split(language.yes))
NO = frozenset(w for language in LANGUAGES for w in split(language.no))
"""Words of a cell under a yes/no heading."""

_UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "Ä": "Ae", "Ö": "Oe", "Ü": "Ue"})


def _typed(language: Language, words: str) -> tuple[str, ...]:
    """The words, of German also as they are typed without umlauts."""
    plain = split(words)
    return (*plain, *(w.translate(_UMLAUTS) for w in plain)) if language is GERMAN else plain


def _headings() -> dict[str, tuple[str, ...]]:
    found = {c.name: [*c.synonyms] for c in SURVEY.columns}
    for language in LANGUAGES:
        for name, words in language.headings.items():
            found[name] += _typed(language, words)
    return {name: tuple(dict.fromkeys(words)) for name, words in found.items()}


def _weak() -> dict[str, tuple[str, ...]]:
    found = defaultdict(list, {name: [*words] for name, words in WEAK_SYNONYMS.items()})
    for language in LANGUAGES:
        for name, words in language.weak.items():
            found[name] += _typed(language, words)
    return {name: tuple(dict.fromkeys(words)) for name, words in found.items()}


def _spellings() -> dict[str, dict[str, tuple[str, ...]]]:
    found: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for language in LANGUAGES:
        for name, values in language.words.items():
            for value, words in values.items():
                found[name][value] += _typed(language, words)
    for column in SURVEY.columns:
        if column.values == YES_NO:
            found[column.name]["yes"] += sorted(YES)
            found[column.name]["no"] += sorted(NO)
    found["old_fittings"]["none"] += ("nein", "non", "não", "nao", "n")
    return {name: {v: tuple(dict.fromkeys(w)) for v, w in values.items()} for name, values in found.items()}


HEADINGS = _headings()
"""Synonyms of every column's heading, by column: one meaning each, in any of the languages."""

WEAK_HEADINGS = _weak()
"""Headings that can mean much else, by column: they count where nothing surer claims the column."""

SPELLINGS = _spellings()
"""Spellings with one meaning only, by column and word of its list."""
