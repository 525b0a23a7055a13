"""What a site's workbook says was not stated, and what was taken instead."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.money.customers import Row, nearest, terms
from pipeline.money.quotation import exempt
from pipeline.sheets.report import PostReport
from pipeline.site.task import World
from schemas.survey import SURVEY

_FROM_POLICY = {
    "ring_heights": "ring_height_wanted",
    "wind_speed": "wind_speed",
    "exposure": "exposure",
    "soil_class": "soil_class",
    "footing_diameter": "footing_diameter",
}
_SILENT = frozenset(
    {
        *("quantity", "size_basis", "measured_with", "height_measured_with", "customer", "site_kind", "notes", "lean_shimmed"),
        *("post_line", "old_fittings"),  # their confirm says it
    }
)
_NO_DEFAULT = frozenset(
    {"least_board_width", "mount_asked", "board_asked", "ring_asked", "post_to_end_line", "footing_depth", "wall"}
)


@dataclass(frozen=True)
class Terms:
    """The customer's terms as far as the quotation says them."""

    listed: bool
    exempt: bool


def taken(row: SurveyRow, world: World) -> tuple[str, ...]:
    """Sentences on what the row left blank and what was taken instead, and on what was inferred."""
    sentences = [f"{_heading(n)}: not stated, taken as {_what(n, row, world)}." for n in _blank(row)]
    return (*sentences, *_cleared(row), *row.remarks)


def _cleared(row: SurveyRow) -> Iterator[str]:
    """Who has cleared or refused the strength, and up to what."""
    if row.strength_cleared == "no":
        yield f"Strength: refused by {row.cleared_by or 'an engineer who is not named'}; nothing may be hung on the post."
    elif row.strength_cleared == "yes" and row.cleared_by:
        if "cleared_moment" in row.unread:
            upto = "up to what could not be read, so it does not count"
        elif row.cleared_moment is None:
            upto = "for any kit, since no moment is stated"
        else:
            upto = f"up to {row.cleared_moment:,.0f} N m at the ground"
        yield f"Strength: cleared by {row.cleared_by}, {upto}."
    elif row.strength_cleared == "yes":
        yield "Strength: said to be cleared, but nobody is named under “Cleared by”, so it does not count."


def _blank(row: SurveyRow) -> list[str]:
    """Columns that took a default, in the order of the survey; a base plate and a driven post take no footing diameter."""
    names = set(row.not_stated) - _SILENT - _NO_DEFAULT
    if row.post_base in ("driven", "base plate"):
        names.discard("footing_diameter")
    return [c.name for c in SURVEY.columns if c.name in names]


def _heading(name: str) -> str:
    return SURVEY.column(name).heading


def _what(name: str, row: SurveyRow, world: World) -> str:
    if name in _FROM_POLICY:
        return _typed(_FROM_POLICY[name], world)
    if name == "clear_length":
        return "the whole height"
    if name == "lean":
        return "plumb"
    if name == "court_rise":
        return "level with the ground"
    if name == "condition":
        return "unknown: look at the post before you order"
    if name == "post_base":
        return "unknown: concrete of the policy's diameter is assumed"
    return str(getattr(row, name) or "")


def _typed(setting: str, world: World) -> str:
    """A setting as it was typed, with where it comes from."""
    s = next(s for s in world.setting.policy if s.name == setting)
    where = "the catalogue's policy" if s.where == "catalogue" else "the documented default"
    return f"{s.value} {s.unit}".strip() + f" ({where})"


def of_site(customer: str, rows: Sequence[SurveyRow], posts: Sequence[PostReport], world: World) -> tuple[Terms, tuple[str, ...]]:
    """The customer's terms, and what is said of the site as a whole."""
    listed = world.catalogue.tables.get("Customers", ())
    row = terms(customer, listed)
    sentences = []
    if not customer:
        sentences.append("No customer is stated: no discount, and tax is charged.")
    elif row is None:
        sentences.append(not_listed(customer, listed))
    if any(p.row.post_base == "base plate" for p in posts):
        sentences.append("A post on a base plate: its anchors are for an engineer, and no footing depth is given.")
    if any(p.lean > math.radians(0.05) for p in posts):
        sentences.append("Posts that lean are taken to lean towards the court.")
    return Terms(row is not None, exempt(row)), tuple(sentences)


def not_listed(customer: str, listed: Sequence[Row]) -> str:
    """What is said of a customer that the catalogue does not list, with the listed name that is near."""
    near = nearest(customer, listed)
    hint = f" The nearest listed name is “{near}”: did you mean that?" if near else ""
    return f"The customer “{customer}” is not listed in the catalogue: no discount, and tax is charged.{hint}"
