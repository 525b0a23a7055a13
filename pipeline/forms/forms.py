"""Empty forms to send out: a survey and a catalogue, with headings, units, drop-downs and notes."""

from __future__ import annotations


def survey_form() -> bytes:
    """An empty survey workbook (.xlsx): `Survey` to fill in, `Example`, `What to measure`. Same bytes each time."""
    from pipeline.forms.survey_form import build

    return build()


def catalogue_form() -> bytes:
    """An empty catalogue workbook (.xlsx): one sheet a table, `Policy` with every documented default. Same bytes each time."""
    from pipeline.forms.catalogue_form import build

    return build()
