"""What a survey's columns and words are called in one language; rows of the one glossary, schemas.survey."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Language:
    """Words of one language.

    `headings` by column: what our own form prints, then synonyms; `weak` by column: headings that can mean much else.
    `words` by column and by value of its list: what our own form prints, then spellings with that one meaning. `yes`
    and `no`: spellings of both. `months` and `weekdays` from January and from Monday. `help` by column: what to fill in. A bar stands between two words everywhere.
    """

    code: str
    name: str
    headings: dict[str, str]
    weak: dict[str, str] = field(default_factory=dict)
    words: dict[str, dict[str, str]] = field(default_factory=dict)
    yes: str = "yes"
    no: str = "no"
    months: str = ""
    weekdays: str = ""
    help: dict[str, str] = field(default_factory=dict)


def split(words: str) -> tuple[str, ...]:
    """The words between the bars."""
    return tuple(w.strip() for w in words.split("|") if w.strip())
