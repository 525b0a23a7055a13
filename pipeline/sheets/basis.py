"""The sheet `Basis`: rules, settings in force and where they came from, sources, versions."""

from __future__ import annotations

from typing import Any

from pipeline.sheets.basis_text import SOURCES
from pipeline.sheets.report import Setting, SettingReport, SiteReport
from pipeline.sheets.setup import finish
from pipeline.sheets.wording import number
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import Col
from schemas.findings import RULES
from schemas.words import CAUTION, NOT_LOOKED_AT, VERDICT_WORDS

RULE_COLUMNS = [
    Col("Rule", "bold", 28, 18),
    Col("Passes", "text", 34, 34),
    Col("To be confirmed", "text", 31, 31),
    Col("Fails", "text", 24, 24),
    Col("Source", "quiet", 22, 22),
]
SETTING_COLUMNS = [Col("Setting", "bold", 28, 18), Col("What it is", "text", 34, 34), Col("In force", "text", 31)]
_LEAST, _MOST = "_least", "_most"
"""Endings of the two settings that bound a range."""


def setting_rows(setting: Setting) -> list[list[Any]]:
    """Settings that the catalogue states: name, what it is, value with its unit."""
    return [[s.name, s.help, _value(s)] for s in setting.policy if s.where == "catalogue"]


def defaults_said(setting: Setting) -> str:
    """Documented defaults in force in one text; a range's two ends stand together."""
    left = {s.name: s for s in setting.policy if s.where != "catalogue"}
    said = []
    for name, s in left.items():
        least, most = (left.get(name.removesuffix(_LEAST).removesuffix(_MOST) + end) for end in (_LEAST, _MOST))
        if not (least and most):
            said.append(f"{name} {_value(s)}")
        elif s is least:
            said.append(f"{name.removesuffix(_LEAST)} {s.value} to {_value(most)}")
    return "; ".join(said)


def _value(s: SettingReport) -> str:
    return f"{s.value} {s.unit}".strip()


def write_basis(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Basis", "#4A5A64")
    page.title("Basis: rules, limits, settings and sources")
    row = page.para(1, CAUTION, "caution")
    row = page.para(row, NOT_LOOKED_AT, "strong")
    rules = [[r.code, *(words or "never" for words in (r.passes, r.confirms, r.fails)), r.source] for r in RULES]
    row = page.table(row, "rules", RULE_COLUMNS, rules, "Rules")
    verdicts = "; ".join(f"{word.replace('_', ' ')}: {said}" for word, said in VERDICT_WORDS.items())
    words = f"Limits are inclusive. A failed rule gives 'does not fit'; else a needed extension, else a confirmation. {verdicts}."
    row = page.para(row, words, "note")
    row = page.section(row, "Formulas and constants", len(RULE_COLUMNS))
    row = page.para(row, "\n".join(f"{about}: {words}" for about, words in SOURCES))
    row = _settings(page, row, setting)
    row = page.section(row, "Made by", len(RULE_COLUMNS))
    page.para(
        row, f"{number(report)}, dated {report.date}, made by {setting.program}; catalogue's fingerprint {setting.catalogue}."
    )
    finish(page, report, 0, landscape=False)


def _settings(page: Page, row: int, setting: Setting) -> int:
    """Settings in force: the catalogue's own in a table, documented defaults in a paragraph."""
    first = row
    row = page.section(row, "Settings in force", len(RULE_COLUMNS))
    stated = setting_rows(setting)
    if stated:
        row = page.table(row, "settings_in_force", SETTING_COLUMNS, stated, "Settings that the catalogue states")
    defaults = defaults_said(setting)
    if defaults:
        row = page.para(row, f"Documented defaults, which the catalogue leaves as they are: {defaults}.", "note")
    page.keep(first, min(row - 1, first + 3))
    return row
