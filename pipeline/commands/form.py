"""`postquote form`: an empty form, or one filled with what the finished runs of a folder know of its sites."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Sequence
from pathlib import Path

from pipeline.explaining.find import ExplainError, no_such_site
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.ledger.schema import unreadable
from pipeline.ledger.store import Ledger
from schemas.order import folded, natural

LEDGER = "ledger.sqlite"


def write(
    file: Path,
    sites: Sequence[str],
    catalogue: bool,
    language: str,
    known: Path | None,
    write_whole: Callable[[Path, bytes], object],
) -> str:
    """Write the form that was asked for; returns the sentence that says so."""
    from pipeline.forms.forms import catalogue_form, survey_form
    from pipeline.forms.known_rows import as_typed

    rows = [as_typed(row, language) for row in known_posts(known, sites)] if known else []
    write_whole(file, catalogue_form() if catalogue else survey_form(language, rows))
    if rows:
        return f"{file}: a survey with what is known of {len(rows)} row{'s' * (len(rows) > 1)}, to be measured again."
    return f"{file}: an empty {'catalogue' if catalogue else 'survey'}, ready to be filled in."


def known_posts(folder: Path, sites: Sequence[str]) -> list[SurveyRow]:
    """Every row, quoted or held, of the sites named, of all where none is, in natural order of site and post.

    ExplainError says what exists where a site is unknown; LedgerError what to do where the ledger cannot be read.
    """
    path = folder / LEDGER
    if not path.is_file():
        raise ExplainError(f"{folder} holds no {LEDGER}: name the folder that was given to `postquote quote` as --out.")
    ledger = Ledger(path, read_only=True)
    try:
        rows = [row for site in sites or ledger.site_codes() for row in _rows(ledger, folder, site)]
    except sqlite3.DatabaseError as error:
        raise unreadable(path, error) from error
    finally:
        ledger.close()
    return sorted(rows, key=lambda r: (natural(r.site_code), natural(r.post_code), natural(r.file), r.row))


def _rows(ledger: Ledger, folder: Path, site: str) -> list[SurveyRow]:
    found = ledger.site_rows(folded(site))
    if found is None:
        raise no_such_site(ledger, folder, site)
    return [SurveyRow.from_dict(r) for kind in ("quoted", "held") for r in found[0][kind]]
