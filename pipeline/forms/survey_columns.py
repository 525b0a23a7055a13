"""The survey's columns as the form has them in one language: heading, help, words of lists, units."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from schemas.column import Column
from schemas.languages import LANGUAGES, Language, split
from schemas.survey import SURVEY, YES_NO

METRIC = {"in": "mm", "ft": "m", "mph": "m/s"}
"""Units of a form in another language than English: where those are spoken people measure so. Source: common practice."""


def language_of(code: str) -> Language:
    """The language called by its code; KeyError names those that exist."""
    for language in LANGUAGES:
        if language.code == code:
            return language
    raise KeyError(f"There is no language {code!r}; there are {', '.join(x.code for x in LANGUAGES)}.")


def columns(language: Language) -> tuple[Column, ...]:
    """Every column of the survey in `language`."""
    return SURVEY.columns if not language.headings else tuple(_column(c, language) for c in SURVEY.columns)


def _column(column: Column, language: Language) -> Column:
    return replace(
        column,
        heading=split(language.headings[column.name])[0],
        help=language.help[column.name],
        unit=METRIC.get(column.unit, column.unit),
        values=tuple(word(column, value, language) for value in column.values),
    )


def word(column: Column, value: str, language: Language) -> str:
    """A value of a column's list in the words of `language`; what has none there stays as it is."""
    if column.values and set(column.values) <= set(YES_NO):
        return split(language.yes if value == "yes" else language.no)[0] if language.headings else value
    known: Mapping[str, str] = language.words.get(column.name, {}) if language.headings else {}
    return split(known[value])[0] if value in known else value
