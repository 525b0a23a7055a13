"""Our palette and the formats that every workbook shares, each made once per workbook and only when it is used."""

from __future__ import annotations

from typing import Any

FONT = "Arial"
INK = "#1E2A32"
PAPER = "#FFFFFF"

PALETTE: dict[str, tuple[str, str]] = {
    "plain": (INK, PAPER),
    "soft": ("#4A5A64", PAPER),
    "head": ("#FFFFFF", "#1F4B57"),
    "band": (INK, "#E4ECEC"),
    "total": (INK, "#D3E0E0"),
    "good": ("#1B5432", "#E2F1E6"),
    "check": ("#6B4300", "#FFF0CF"),
    "added": ("#1D4373", "#E1EAF7"),
    "bad": ("#86201C", "#FBE3E0"),
    "caution": ("#6B2A00", "#FFE9D6"),
    "link": ("#0B4F9E", PAPER),
}
"""Ink and ground by name; every pair has a contrast of at least 4.5 to 1 (WCAG 2.1, 1.4.3; a test computes it)."""

_LINE = {"bottom": 1, "bottom_color": "#C3CFD1"}
_WRAP = {"text_wrap": True, "valign": "top"}
_TOP = {"valign": "top"}
_CELL = {**_WRAP, **_LINE, "align": "left", "indent": 1}


def _paint(name: str) -> dict[str, Any]:
    ink, ground = PALETTE[name]
    paint: dict[str, Any] = {"font_color": ink}
    if ground != PAPER:
        paint["bg_color"] = ground
    return paint


STYLES: dict[str, dict[str, Any]] = {
    # running text
    "title": {"font_size": 18, "bold": True, "font_color": "#1F4B57", "text_wrap": True, "valign": "vcenter"},
    "sheet_title": {"font_size": 14, "bold": True, "font_color": "#1F4B57"},
    "section": {"font_size": 12, "bold": True, "font_color": "#1F4B57", "bottom": 2, "bottom_color": "#1F4B57"},
    "para": {**_paint("plain"), **_WRAP},
    "strong": {**_paint("plain"), **_WRAP, "bold": True},
    "note": {**_paint("soft"), **_WRAP},
    "caution": {**_paint("caution"), **_WRAP, "bold": True},
    "label": {**_paint("soft"), **_WRAP},
    "fill": {**_paint("plain"), **_WRAP, "border": 1, "border_color": "#4A5A64", "locked": False},
    "sign": {**_paint("plain"), "bottom": 1, "bottom_color": INK},
    # cells of tables
    "head": {**_paint("head"), "bold": True, "text_wrap": True, "valign": "vcenter", "align": "left", "indent": 1},
    "head_right": {**_paint("head"), "bold": True, "text_wrap": True, "valign": "vcenter", "align": "right"},
    "text": {**_paint("plain"), **_CELL},
    "bold": {**_paint("plain"), **_CELL, "bold": True},
    "quiet": {**_paint("soft"), **_CELL},
    "right": {**_paint("plain"), **_WRAP, **_LINE, "align": "right"},
    "link": {**_paint("link"), **_CELL, "underline": 1},
    **{name: {**_paint(name), **_CELL} for name in ("good", "check", "added", "bad")},
    "whole": {**_paint("plain"), **_TOP, **_LINE, "num_format": "#,##0", "align": "right"},
    "mm": {**_paint("plain"), **_TOP, **_LINE, "align": "right"},
    "number1": {**_paint("plain"), **_TOP, **_LINE, "num_format": "#,##0.0", "align": "right"},
    "number2": {**_paint("plain"), **_TOP, **_LINE, "num_format": "0.00", "align": "right"},
    "metres": {**_paint("plain"), **_TOP, **_LINE, "num_format": "0.000", "align": "right"},
    "metres4": {**_paint("plain"), **_TOP, **_LINE, "num_format": "0.0000", "align": "right"},
    "percent": {**_paint("plain"), **_TOP, **_LINE, "num_format": "0%", "align": "right"},
    "rate": {**_paint("plain"), **_TOP, **_LINE, "num_format": "0.###", "align": "right"},
    # the quotation
    "group": {**_paint("band"), "valign": "vcenter", "align": "left", "indent": 1, "bold": True},
    "sub": {**_paint("band"), "valign": "vcenter", "bold": True, "align": "right"},
    "sum": {**_paint("band"), "valign": "vcenter", "bold": True, "align": "right"},
    "tax_rate": {**_paint("band"), "valign": "vcenter", "bold": True, "num_format": "0.0###%", "align": "right"},
    "grand": {
        **_paint("total"),
        "bold": True,
        "font_size": 13,
        "align": "right",
        "valign": "vcenter",
        "top": 2,
        "top_color": "#1F4B57",
    },
}

STYLES |= {f"{name}_line": {**STYLES[name], "text_wrap": False} for name in ("para", "strong", "note")}

MONEY_STYLES = ("money", "money_bold", "sum", "grand", "more")
"""Styles that carry money; their number format follows the currency's minor unit."""


def money_format(digits: int, signed: bool = False) -> str:
    """Number format of an amount with `digits` decimals; signed: with a plus for more, and a word for the same."""
    plain = "#,##0" + ("." + "0" * digits if digits else "")
    return f"+{plain};-{plain};{plain}" if signed else plain


def style(name: str, digits: int = 2) -> dict[str, Any]:
    """Properties of the style `name`, ready for the spreadsheet library."""
    base = {"font_name": FONT, "font_size": 10}
    if name in MONEY_STYLES:
        of = {"money": "right", "money_bold": "right", "more": "right"}.get(name, name)
        found = {**STYLES[of], "num_format": money_format(digits, signed=name == "more")}
        return {**base, **found, **({"bold": True} if name == "money_bold" else {})}
    return {**base, **STYLES[name]}
