"""Empty forms to send out: a survey and a catalogue, with headings, units, drop-downs and notes."""

from __future__ import annotations


def survey_form() -> bytes:
    """An empty survey workbook (.xlsx)."""
    raise NotImplementedError


def catalogue_form() -> bytes:
    """An empty catalogue workbook (.xlsx)."""
    raise NotImplementedError
