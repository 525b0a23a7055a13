"""What the survey says of the post: as typed and where, read as what, and what was taken for blank cells."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from pipeline.explaining.case import POST, Case, setting
from pipeline.explaining.layout import clean, heading, item, metres, number
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.ledger.kept_catalogue import Kept
from pipeline.rules.plain import height
from pipeline.rules.post_arrays import tool
from schemas.column import Column
from schemas.lengths import INCH
from schemas.policy import BY_NAME, HEIGHT_UNCERTAINTY, SIZE_UNCERTAINTY
from schemas.survey import SURVEY

METRES = {"in": INCH, "ft": 12 * INCH, "yd": 36 * INCH, "mm": 0.001, "cm": 0.01, "dm": 0.1}
"""Length units of senders [m]. Source: international yard, exactly 0.9144 m; SI prefixes (NIST SP 811)."""

FROM_POLICY = {
    "ring_heights": "ring_height_wanted",
    "wind_speed": "wind_speed",
    "exposure": "exposure",
    "soil_class": "soil_class",
    "footing_diameter": "footing_diameter",
}
"""Columns whose blank takes a policy setting."""

_BLANK = {
    "quantity": "taken as 1",
    "size_basis": "taken as the outside size",
    "clear_length": "taken as the whole height",
    "lean": "taken as plumb, 0 deg",
    "court_rise": "taken as level with the ground, 0 m",
    "condition": "taken as unknown: look at the post before anything is ordered",
    "post_base": "taken as unknown: concrete of the policy's diameter is assumed",
    "wall": "not known; no strength can be worked out",
    "least_board_width": "any width will do",
    "mount_asked": "no wish",
    "board_asked": "no wish",
    "ring_asked": "no wish",
    "post_to_end_line": "not known",
    "footing_depth": "not known",
    "site_kind": "not known",
    "customer": "no discount, and tax is charged",
    "notes": "none",
}
_LENGTHS = ("length", "lengths", "pipe")


def inputs(row: SurveyRow, kept: Kept) -> Iterator[str]:
    """Every column of the survey, as it was typed and as it was read."""
    yield from heading("Inputs: as typed, and read as")
    for c in SURVEY.columns:
        yield from item(c.heading, _shown(c, row, kept))
    for sentence in row.remarks:
        yield from item("Inferred", sentence)
    for name, text in row.extra.items():
        yield from item(name, f"“{clean(text)}”; carried along, not used")


def _shown(c: Column, row: SurveyRow, kept: Kept) -> str:
    typed, cell = row.typed.get(c.name), row.cells.get(c.name, "")
    if typed is None:
        return _blank(c, row, kept)
    at = f" in {cell}" if cell else ""
    value = getattr(row, c.name)
    if value is None:
        return f"“{typed}”{at}, not read"
    if isinstance(value, str) and value.casefold() == " ".join(typed.split()).casefold():
        return f"“{typed}”{at}"
    return f"“{typed}”{at} -> {_read(c, value, row.units.get(c.name, ''))}"


def _blank(c: Column, row: SurveyRow, kept: Kept) -> str:
    """What was taken for a blank cell."""
    value = getattr(row, c.name)
    if row.held and c.needed and value is None:
        return "blank, and needed"
    if c.name == "footing_diameter" and row.post_base == "driven":
        return "not stated; a driven post's own size counts"
    if c.name == "footing_diameter" and row.post_base == "base plate":
        return "not stated; not used on a base plate"
    if c.name in FROM_POLICY:
        return f"not stated; taken as {setting(kept, FROM_POLICY[c.name])}"
    if c.name == "wall" and value is not None:
        return f"not stated; that of the stated schedule, {_read(c, value, 'mm')}"
    if c.name == "size_basis" and value is not None and c.name not in row.not_stated:
        return f"not stated; {value}, as the size's cell or heading says"
    if c.name in _BLANK:
        return f"not stated; {_BLANK[c.name]}"
    return f"not stated; taken as {value}" if value is not None else "not stated"


def _read(c: Column, value: Any, unit: str) -> str:
    """A value in SI, and in the unit in which it was given."""
    if isinstance(value, tuple):
        return "; ".join(_read(c, v, unit) for v in value)
    if c.kind in _LENGTHS:
        return f"{metres(value)}{_also(value, unit)}"
    if c.kind == "angle":
        return f"{number(value)} rad = {number(round(math.degrees(value), 9))} deg"
    return f"{number(value)} m/s" if c.kind == "speed" else f"{value}"


def _also(value: float, unit: str) -> str:
    if unit in METRES:
        return f" = {number(round(value / METRES[unit], 6))} {unit}"
    return "" if unit == "m" else f" = {height(value)}"


def uncertainties(case: Case) -> Iterator[str]:
    """The bounds on size and height that were used, and why."""
    p, row, kept = case.shown.posts, case.row, case.left.kept
    yield from heading("How sure the measures are")
    D, H = float(p.size[POST]), float(p.height[POST])
    yield from item("Size", f"{metres(D)}, give or take {metres(float(p.size_uncertainty[POST]))}: {_why_size(row, kept)}.")
    yield from item("Height", f"{metres(H)}, give or take {metres(float(p.height_uncertainty[POST]))}: {_why_height(row, kept)}.")


def _why_size(row: SurveyRow, kept: Kept) -> str:
    method = tool(row, "measured_with")
    how = _how(method, "measured_with", row)
    if method != "estimate" and row.size_nominal:
        method, how = "pipe mark", "a nominal pipe size"
    name = SIZE_UNCERTAINTY[method]
    of = " of the size" if method in ("pipe mark", "drawing") else ""
    band = "; an estimate passes only where its whole band fits" if method == "estimate" else ""
    return f"{how}, {setting(kept, name)}{of}{band}. Source: {BY_NAME[name].source}"


def _why_height(row: SurveyRow, kept: Kept) -> str:
    method = tool(row, "height_measured_with")
    name, how = HEIGHT_UNCERTAINTY[method], _how(method, "height_measured_with", row)
    more = ""
    if row.court_rise is not None and "court_rise" not in row.not_stated:
        more = f"; the court's level is a second measurement, {setting(kept, 'court_rise_uncertainty')} more"
    band = "; an estimate passes only where its whole band fits" if method == "estimate" else ""
    return f"{how}, {setting(kept, name)}{more}{band}. Source: {BY_NAME[name].source}"


def _how(method: str, column: str, row: SurveyRow) -> str:
    if column in row.unread:
        return f"{method}, since how it was taken could not be read"
    return f"{method} (not stated, the default)" if column in row.not_stated else method
