"""The sheet `Basis`: rules, settings in force and where they came from, sources, versions."""

from __future__ import annotations

from typing import Any

from pipeline.books.model import Setting, SiteReport
from pipeline.books.page import Book, Col
from pipeline.books.setup import finish
from schemas.words import CAUTION, NOT_LOOKED_AT, VERDICT_WORDS

RULES: tuple[tuple[str, str, str, str, str], ...] = (
    ("SHAPE", "post and mount of one shape", "", "shapes differ, or neither round nor square", "common practice"),
    ("SIZE", "outside size within the mount's window", "outside by no more than the size's bound; or an estimate that only partly fits", "outside by more", "common practice"),
    ("LINE", "straight", "unknown or tapered", "gooseneck or bent", "common practice"),
    ("LEAN", "ring level across its 0.450 m within ring_level_tolerance", "up to lean_limit: shim or straighten", "beyond lean_limit", "FIBA (ring); house default"),
    ("FITTINGS", "none, or removable (stripping is charged)", "unknown", "fixed", "common practice"),
    ("CONDITION", "sound, surface rust, or unknown (said)", "", "corroded, cracked or loose", "common practice"),
    ("BASE", "cast in, ground sleeve, driven, or unknown (said)", "base plate: anchors are for an engineer", "portable", "common practice"),
    ("CLEAR", "clamps lie within the straight clear length", "", "clamps need more", "geometry"),
    ("HEIGHT", "greatest ring height reaches the target within ring_height_tolerance", "short by no more than the height's bound; or an estimate that only partly reaches", "short by more: an extension is needed", "geometry; FIBA and NFHS (ring height)"),
    ("JOINT", "no extension, a sleeve, or a spigot that enters the bore", "a spigot, and the wall is not stated", "that extension is not offered", "geometry"),
    ("BOARD", "no wider and no heavier than the mount allows, no narrower than asked for", "", "wider, heavier or narrower", "catalogue"),
    ("STRENGTH", "rough load within rough strength, or strength not known", "over: only a licensed engineer can clear it", "", "AISC 360-16; ASCE 7-16; EN 1270 (memory)"),
    ("FOOTING", "no depth is stated, or it is enough", "the stated depth is less than the formula asks for", "", "IBC 1807.3.2.1"),
)  # fmt: skip
"""Code, pass, confirm, fail, source: contract and design section 4 in the words of a reader."""

SOURCES: tuple[tuple[str, str], ...] = (
    ("Ring height", "Lift is 'For ring height' less 'Post height needed'; greatest ring height is post height less court level plus lift. Geometry; ring 10 ft (3.05 m): FIBA rules, NFHS rule 1."),
    ("Ring and board", "Ring 0.450 m across, 0.151 m off the board, 0.150 m above the board's lower edge: FIBA Basketball Equipment (memory)."),
    ("Pipe sizes", "ASME B36.10M; DN names: ISO 6708, EN 10255."),
    ("Hanging load", "EN 1270, vertical test load (memory)."),
    ("Push load", "GOST R 56434-2015, appendix G, outdoor equipment."),
    ("Wind", "ASCE 7-16, chapters 26 and 29; 0.6 W of allowable stress design, 2.4."),
    ("Strength", "AISC 360-16, chapters E, F, H and appendix 8; design wall B4.2."),
    ("Square sections", "Outer corner radius twice the wall (AISC Manual part 1). For EN 10219-2 sections above 6 mm, whose radii are larger, this is 2 to 17 % on the unsafe side."),
    ("Footing", "IBC 1807.3.2.1, not constrained; lateral bearing of table 1806.2."),
    ("Whole", "No published standard certifies a new board on somebody else's old post. EN 1270 and EN 15312 cover complete equipment."),
)  # fmt: skip

VERDICT_ORDER = ("viable", "viable_confirm", "viable_extended", "not_viable", "no_kit")


def setting_rows(setting: Setting) -> list[list[Any]]:
    """Every setting in force: name, value, unit, where from, what it is, source."""
    return [[s.name, s.value, s.unit or None, s.where, s.help, s.source] for s in setting.policy]


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
        Col("Value", "text", 34),
        Col("Unit", "text", 30),
        Col("From", "text", 30),
        Col("What it is", "text", 56),
        Col("Source", "quiet", 50),
    ]
    rows = setting_rows(setting)
    if rows:
        row = page.table(top, "settings_in_force", cols, rows, "Settings in force")
    row = page.section(row + 1, "Rules", len(cols))
    rules = [
        Col("Rule", "bold", 30),
        Col("Passes", "text", 34),
        Col("To be confirmed", "text", 30),
        Col("Fails", "text", 30),
        Col("Source", "quiet", 56),
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
