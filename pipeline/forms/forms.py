"""Empty forms to send out: a survey and a catalogue, with headings, units, drop-downs and notes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence


def survey_form(language: str = "en", rows: Sequence[Mapping[str, str]] = ()) -> bytes:
    """A survey workbook (.xlsx): `Survey` to fill in, an example, what to measure; in a language of schemas.languages.

    `rows` are posts that are known already, as texts by column name; without them the form is empty. Same bytes each time.
    """
    from pipeline.forms.survey_form import build

    return build(language, rows)


def catalogue_form() -> bytes:
    """An empty catalogue workbook (.xlsx): one sheet a table, `Policy` with every documented default. Same bytes each time."""
    from pipeline.forms.catalogue_form import build

    return build()
