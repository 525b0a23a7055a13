"""The sheet `Basis`: rules, settings in force and where they came from, sources, versions."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from pipeline.sheets.basis_text import SOURCES
from pipeline.sheets.report import Setting, SettingReport, SiteReport
from pipeline.sheets.wording import number
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.paper import A4, LETTER
from pipeline.xlsx.stencil import Stencil, cut
from pipeline.xlsx.values import Col
from schemas.findings import RULES
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


_VERSION_ROWS = ("Program", "Catalogue", "Date of the quotation", "Revision")


def version_rows(report: SiteReport, setting: Setting) -> list[list[Any]]:
    """Versions of what made the workbook."""
    words = setting.program, f"fingerprint {setting.catalogue}", report.date, f"r{report.revision}"
    return [list(pair) for pair in zip(_VERSION_ROWS, words, strict=True)]


def write_basis(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet; all but the versions and the printed page is laid from the book's stencil, where it has one."""
    page = book.page("Basis", "#4A5A64")
    versions = version_rows(report, setting)
    if book.stencil is None:
        _, top = _fill(page, setting, versions)
    else:
        first, top = book.stencil.lay(page)
        for row, (_, words) in enumerate(versions, first):
            page.sheet.text(row, 1, words, "para")
    page.sheet.freeze_panes(1, 1)
    page.print_as(top, f"{number(report)}  {report.site_name}", on=LETTER if report.feet else A4)


def stencil(setting: Setting, digits: int) -> Stencil:
    """The sheet as far as it is the same in every workbook of a run, for a currency with `digits` decimals."""
    return _stencil(setting.policy, setting.program, digits)


@lru_cache(maxsize=4)
def _stencil(policy: tuple[SettingReport, ...], program: str, digits: int) -> Stencil:
    page = Book("Basis", "", "2000-01-01", program, digits).page("Basis")
    labels = [[about, about] for about in _VERSION_ROWS]  # words that stand there anyhow; each workbook writes its own
    return cut(page, _fill(page, Setting({}, policy, program, ""), labels))


def _fill(page: Page, setting: Setting, versions: list[list[Any]]) -> tuple[int, int]:
    """Writes the sheet but for its printed page; returns the first rows of the versions and of the settings (0 none)."""
    page.title("Basis: rules, limits, settings and sources")
    row = page.para(1, CAUTION, "caution")
    row = page.para(row, NOT_LOOKED_AT, "strong")
    rules = [[r.code, *(words or "never" for words in (r.passes, r.confirms, r.fails)), r.source] for r in RULES]
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
    first, top = row, 0
    for about, words in versions:
        page.put(row, 0, about, "label")
        row = page.para(row, words, "para", 1)
    settings = setting_rows(setting)
    if settings:
        top = page.section(row + 1, "Settings in force", len(RULE_COLUMNS))
        page.table(top, "settings_in_force", SETTING_COLUMNS, settings, "Settings in force")
        page.keep(top - 1, top + 3)
    return first, top
