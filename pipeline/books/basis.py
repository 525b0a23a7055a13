"""The sheet `Basis`: rules, settings in force and where they came from, sources, versions."""

from __future__ import annotations

from typing import Any

from pipeline.books.basis_text import RULES, SOURCES
from pipeline.books.cells import Col
from pipeline.books.model import Setting, SiteReport
from pipeline.books.page import Book
from pipeline.books.paper import A4, LETTER
from pipeline.books.wording import number
from schemas.words import CAUTION, NOT_LOOKED_AT, VERDICT_WORDS

VERDICT_ORDER = ("viable", "viable_confirm", "viable_extended", "not_viable", "no_kit")


RULE_COLUMNS = [
    Col("Rule", "bold", 28, 28),
    Col("Passes", "text", 46, 46),
    Col("To be confirmed", "text", 23, 23),
    Col("Fails", "text", 23, 23),
    Col("Source", "quiet", 47),
]
SETTING_COLUMNS = [
    Col("Setting", "bold", 30),
    Col("What it is", "text", 46),
    Col("In force", "text", 23),
    Col("From", "text", 23),
    Col("Source of the default", "quiet", 47),
]


def setting_rows(setting: Setting) -> list[list[Any]]:
    """Every setting in force: name, what it is, value with its unit, where that came from, source of the default."""
    where = {"catalogue": "the catalogue", "default": "documented default"}
    return [[s.name, s.help, f"{s.value} {s.unit}".strip(), where.get(s.where, s.where), s.source] for s in setting.policy]


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
    rules = [[c, p or "never", q or "never", f or "never", s] for c, p, q, f, s in RULES]
    row = page.table(row, "rules", RULE_COLUMNS, rules, "Rules")
    row = page.para(
        row + 1, "Limits are inclusive. A failed rule gives 'does not fit'; else a needed extension, else a confirmation.", "note"
    )
    for word in VERDICT_ORDER:
        page.put(row, 0, word.replace("_", " "), "label")
        row = page.para(row, VERDICT_WORDS[word], "para", 1)
    row = page.section(row + 1, "Formulas and constants", len(RULE_COLUMNS))
    for about, words in SOURCES:
        page.put(row, 0, about, "label")
        row = page.para(row, words, "para", 1)
    row = page.section(row + 1, "Made by", len(RULE_COLUMNS))
    for about, words in version_rows(report, setting):
        page.put(row, 0, about, "label")
        row = page.para(row, words, "para", 1)
    top = 0
    settings = setting_rows(setting)
    if settings:
        top = page.section(row + 1, "Settings in force", len(RULE_COLUMNS))
        page.table(top, "settings_in_force", SETTING_COLUMNS, settings, "Settings in force")
        page.keep(top - 1, top + 3)
    page.sheet.freeze_panes(1, 1)
    page.print_as(top, f"{number(report)}  {report.site_name}", on=LETTER if report.feet else A4)
