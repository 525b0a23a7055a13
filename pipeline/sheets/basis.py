"""The sheet `Basis`: rules, settings in force and where they came from, sources, versions."""

from __future__ import annotations

from pipeline.sheets.basis_text import SOURCES
from pipeline.sheets.report import Setting, SettingReport, SiteReport
from pipeline.sheets.setup import finish
from pipeline.sheets.wording import number
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import Col
from schemas.findings import RULES
from schemas.words import CAUTION, VERDICT_WORDS

RULE_COLUMNS = [
    Col("Rule", "bold", 13, 13),
    Col("Passes", "text", 44, 40),
    Col("To be confirmed", "text", 54, 48),
    Col("Fails", "text", 30, 28),
    Col("Source", "quiet", 50, 44),
]
_LEAST, _MOST = "_least", "_most"
"""Endings of the two settings that bound a range."""


def settings_words(setting: Setting, where: str) -> str:
    """Settings in force that come from `where`, catalogue or default, in one text; a range's two ends stand together."""
    here = {s.name: s for s in setting.policy if s.where == where}
    words = []
    for name, s in here.items():
        least, most = (here.get(name.removesuffix(_LEAST).removesuffix(_MOST) + end) for end in (_LEAST, _MOST))
        if not (least and most):
            words.append(f"{name} {_value(s)}")
        elif s is least:
            words.append(f"{name.removesuffix(_LEAST)} {s.value} to {_value(most)}")
    return "; ".join(words)


def _value(s: SettingReport) -> str:
    return f"{s.value} {s.unit}".strip()


def write_basis(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Basis", "#4A5A64")
    page.title("Basis: rules, limits, settings and sources")
    row = page.para(1, CAUTION, "caution")
    rules = [[r.code, *(words or "never" for words in (r.passes, r.confirms, r.fails)), r.source] for r in RULES]
    row = page.table(row, "rules", RULE_COLUMNS, rules, "Rules")
    verdicts = "; ".join(f"{word.replace('_', ' ')}: {words}" for word, words in VERDICT_WORDS.items())
    words = f"Limits are inclusive. A failed rule gives 'does not fit'; else a needed extension, else a confirmation. {verdicts}."
    row = page.para(row, words, "note")
    row = page.section(row, "Formulas and constants", len(RULE_COLUMNS))
    row = page.para(row, " ".join(f"{about}: {words}" for about, words in SOURCES))
    row = page.section(row, "Settings in force", len(RULE_COLUMNS))
    for where, source in (("catalogue", "Stated by the catalogue"), ("default", "Documented defaults")):
        words = settings_words(setting, where)
        row = page.para(row, f"{source}: {words}.") if words else row
    made = f"{setting.program} from the catalogue with fingerprint {setting.catalogue}"
    page.para(row, f"{number(report)}, dated {report.date}, was made by {made}.", "note")
    finish(page, report, 0)
