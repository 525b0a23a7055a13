"""The sheet `Basis`: rules, settings in force and where they came from, sources, versions."""

from __future__ import annotations

from typing import Any

from pipeline.books.basis_text import RULES, SOURCES
from pipeline.books.cells import Col
from pipeline.books.model import Setting, SiteReport
from pipeline.books.page import Book
from pipeline.books.setup import finish
from schemas.words import CAUTION, NOT_LOOKED_AT, VERDICT_WORDS

VERDICT_ORDER = ("viable", "viable_confirm", "viable_extended", "not_viable", "no_kit")


def setting_rows(setting: Setting) -> list[list[Any]]:
    """Every setting in force: name, what it is, value, unit, source of the default, where the value came from."""
    return [[s.name, s.help, s.value, s.unit or None, s.source, s.where] for s in setting.policy]


def version_rows(report: SiteReport, setting: Setting) -> list[list[Any]]:
    """Versions of what made the workbook."""
    return [
        ["Program", setting.program],
        ["Catalogue", f"fingerprint {setting.catalogue}"],
        ["Date of the quotation", report.date],
        ["Revision", f"r{report.revision}"],
    ]


def write_basis(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Basis", "#4A5A64")
    page.title("Basis: rules, limits, settings and sources")
    row = page.para(1, CAUTION, "caution")
    row = page.para(row, NOT_LOOKED_AT, "strong")
    top = row
    cols = [
        Col("Setting", "bold", 30),
        Col("What it is", "text", 42),
        Col("Value", "text", 24),
        Col("Unit", "text", 24, 22),
        Col("Source of the default", "quiet", 40),
        Col("From", "text", 14),
    ]
    rows = setting_rows(setting)
    if rows:
        row = page.table(top, "settings_in_force", cols, rows, "Settings in force")
    row = page.section(row + 1, "Rules", len(cols))
    rules = [
        Col("Rule", "bold", 30),
        Col("Passes", "text", 42),
        Col("To be confirmed", "text", 24, 22),
        Col("Fails", "text", 24, 22),
        Col("Source", "quiet", 40),
    ]
    row = page.table(row, "rules", rules, [[c, p or "never", q or "never", f or "never", s] for c, p, q, f, s in RULES], "Rules")
    row = page.para(
        row + 1, "Limits are inclusive. A failed rule gives 'does not fit'; else a needed extension, else a confirmation.", "note"
    )
    for word in VERDICT_ORDER:
        page.put(row, 0, word.replace("_", " "), "label")
        row = page.para(row, VERDICT_WORDS[word], "para", 1)
    row = page.section(row + 1, "Formulas and constants", len(cols))
    for about, words in SOURCES:
        page.put(row, 0, about, "label")
        row = page.para(row, words, "para", 1)
    row = page.section(row + 1, "Made by", len(cols))
    for about, words in version_rows(report, setting):
        page.put(row, 0, about, "label")
        row = page.para(row, words, "para", 1)
    finish(page, report, top if rows else 0)
