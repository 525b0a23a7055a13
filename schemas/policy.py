"""Policy: every default and limit that the computation uses, with its documented default and source."""

from __future__ import annotations

from dataclasses import dataclass

from schemas.column import Column, Kind, Table

POLICY = Table(
    "Policy",
    "one setting",
    (
        Column("setting", "Setting", "code", needed=True, help="Name of the setting."),
        Column("value", "Value", "text", needed=True, help="Its value."),
        Column("unit", "Unit", "text", help="Unit of the value; blank: the documented unit."),
        Column("note", "Note", "text", help="Why it is so."),
    ),
    key=("setting",),
    may_be_missing=True,
)


@dataclass(frozen=True)
class Setting:
    """One policy setting: name, kind, documented default as typed, its unit, what it is, where from.

    `at_least` and `at_most`, in the documented unit, bound what may be set; `values` lists the words
    of a choice.
    """

    name: str
    kind: Kind
    default: str
    unit: str
    help: str
    source: str
    values: tuple[str, ...] = ()
    at_least: float | None = None
    at_most: float | None = None


_OWN = "house default"
_RANGE = "house range of what is plausible; common practice"

SETTINGS: tuple[Setting, ...] = (
    Setting("ring_height_wanted", "lengths", "10", "ft", "ring heights wanted where the survey leaves them blank", "FIBA Official Basketball Rules, equipment; NFHS rule 1: ring 10 ft (3.05 m) above the floor", at_least=1),
    Setting("ring_height_tolerance", "length", "6", "mm", "a ring this much off its wanted height still serves it", "FIBA Basketball Equipment: +-6 mm on the ring's height (memory)", at_least=0),
    Setting("ring_level_tolerance", "length", "6", "mm", "most that a ring may be out of level across its diameter before a shim is asked for", "house default, the same as the height's", at_least=0),
    Setting("lean_limit", "angle", "2", "deg", "most that a post may lean and still carry a shimmed mount", _OWN, at_least=0, at_most=45),
    # uncertainty of the post's size, one bound
    Setting("size_uncertainty_calipers", "length", "0.5", "mm", "bound on a size taken with calipers", "common practice", at_least=0),
    Setting("size_uncertainty_tape", "length", "0.5", "mm", "bound on a size taken with a tape round the post (1.6 mm on the circumference)", "common practice", at_least=0),
    Setting("size_uncertainty_rule", "length", "1.6", "mm", "bound on a size taken with a rule across (1/16 in)", "common practice", at_least=0),
    Setting("size_uncertainty_pipe_mark", "percent", "1", "%", "bound on a size known from a pipe mark or nominal size, of the size", "ASTM A53 outside diameter tolerance (memory)", at_least=0, at_most=50),
    Setting("size_uncertainty_drawing", "percent", "1", "%", "bound on a size taken from a drawing, of the size", _OWN, at_least=0, at_most=50),
    Setting("size_uncertainty_estimate", "length", "6", "mm", "bound on an estimated size", _OWN, at_least=0),
    # uncertainty of the post's height, one bound
    Setting("height_uncertainty_tape", "length", "6", "mm", "bound on a height taken with a tape", "common practice", at_least=0),
    Setting("height_uncertainty_level", "length", "3", "mm", "bound on a height taken with a level or laser", "common practice", at_least=0),
    Setting("height_uncertainty_drawing", "length", "25", "mm", "bound on a height taken from a drawing", _OWN, at_least=0),
    Setting("height_uncertainty_estimate", "length", "75", "mm", "bound on an estimated height", _OWN, at_least=0),
    Setting("court_rise_uncertainty", "length", "6", "mm", "added to the height's bound where the court's level is stated: a second measurement", _OWN, at_least=0),
    # plausible ranges of survey values
    Setting("quantity_least", "whole", "1", "", "fewest posts on a row", _RANGE, at_least=1),
    Setting("quantity_most", "whole", "500", "", "most posts on a row", _RANGE, at_least=1),
    Setting("post_size_least", "length", "40", "mm", "least plausible post size", _RANGE, at_least=0),
    Setting("post_size_most", "length", "350", "mm", "greatest plausible post size", _RANGE, at_least=0),
    Setting("post_height_least", "length", "1.5", "m", "least plausible post height", _RANGE, at_least=0),
    Setting("post_height_most", "length", "6", "m", "greatest plausible post height", _RANGE, at_least=0),
    Setting("court_rise_least", "length", "-1", "m", "least plausible court level", _RANGE),
    Setting("court_rise_most", "length", "1", "m", "greatest plausible court level", _RANGE),
    Setting("lean_least", "angle", "0", "deg", "least plausible lean", _RANGE),
    Setting("lean_most", "angle", "20", "deg", "greatest plausible lean", _RANGE, at_most=89),
    Setting("wall_least", "length", "1", "mm", "least plausible wall", _RANGE, at_least=0),
    Setting("wall_most", "length", "25", "mm", "greatest plausible wall; never above a fifth of the size", _RANGE, at_least=0),
    Setting("ring_height_least", "length", "1.8", "m", "least plausible wanted ring height", _RANGE, at_least=0),
    Setting("ring_height_most", "length", "3.1", "m", "greatest plausible wanted ring height", _RANGE, at_least=0),
    Setting("wind_speed_least", "speed", "15", "m/s", "least plausible design wind speed", _RANGE, at_least=0),
    Setting("wind_speed_most", "speed", "110", "m/s", "greatest plausible design wind speed", _RANGE, at_least=0),
    Setting("board_width_least", "length", "0.5", "m", "least plausible least board width", _RANGE, at_least=0),
    Setting("board_width_most", "length", "2.5", "m", "greatest plausible least board width", _RANGE, at_least=0),
    Setting("post_to_end_line_least", "length", "-2", "m", "least plausible distance from post to end line", _RANGE),
    Setting("post_to_end_line_most", "length", "6", "m", "greatest plausible distance from post to end line", _RANGE),
    Setting("footing_diameter_least", "length", "0.15", "m", "least plausible footing diameter", _RANGE, at_least=0),
    Setting("footing_diameter_most", "length", "2", "m", "greatest plausible footing diameter", _RANGE, at_least=0),
    Setting("footing_depth_least", "length", "0.2", "m", "least plausible footing depth", _RANGE, at_least=0),
    Setting("footing_depth_most", "length", "5", "m", "greatest plausible footing depth", _RANGE, at_least=0),
    # loads
    Setting("play_load", "force", "3200", "N", "load hung where the ring joins the board", "EN 1270, vertical test load (memory)", at_least=0),
    Setting("push_load", "force", "1000", "N", "horizontal load at the ring", "GOST R 56434-2015, appendix G, outdoor equipment (memory)", at_least=0),
    Setting("least_wind_pressure", "pressure", "766", "Pa", "least wind pressure on board and post in the storm case (16 psf)", "ASCE 7-16 29.7 (memory)", at_least=0),
    Setting("play_wind_speed", "speed", "15", "m/s", "wind in which people still play", _OWN, at_least=0),
    Setting("wind_speed", "speed", "51.4", "m/s", "design wind speed where the survey leaves it blank (115 mph)", "ASCE 7-16 figure 26.5-1B, much of the United States; the local code decides", at_least=1),
    Setting("exposure", "choice", "C", "", "exposure where the survey leaves it blank", "ASCE 7-16 26.7; open ground", values=("B", "C", "D")),
    Setting("board_drag", "number", "1.8", "", "force coefficient of the board", "ASCE 7-16 figure 29.3-1, a small sign high above ground", at_least=0),
    Setting("gust_factor", "number", "0.85", "", "gust-effect factor of a rigid structure", "ASCE 7-16 26.11.1", at_least=0),
    Setting("steel_yield", "pressure", "207", "MPa", "yield stress of an unknown old steel post (30 ksi)", "common practice: the usual floor for unknown steel", at_least=1),
    Setting("steel_modulus", "pressure", "200", "GPa", "elastic modulus of steel", "AISC 360-16 (29,000 ksi)", at_least=1),
    Setting("design_wall_factor", "number", "0.93", "", "design wall over stated wall", "AISC 360-16 B4.2", at_least=0.01, at_most=1),
    Setting("footing_diameter", "length", "0.45", "m", "footing diameter where the survey leaves it blank", "common practice", at_least=0.01),
    Setting("soil_class", "choice", "5", "", "soil class where the survey leaves it blank: the weakest that may be presumed", "IBC table 1806.2, row 5", values=("1", "2", "3", "4", "5")),
    Setting("soil_short_term_factor", "number", "1", "", "what soil bears more under loads that do not last; 2 where half an inch of movement does no harm", "IBC 2018 1806.3.4 (memory); house default: no more", at_least=1, at_most=2),
    # money
    Setting("currency", "text", "USD", "", "currency of all prices, an ISO 4217 code", "ISO 4217"),
    Setting("tax_rate", "number", "0", "", "tax on goods, services and freight, as a fraction: 7.25 % is 0.0725", _OWN, at_least=0, at_most=1),
    Setting("quote_valid_days", "whole", "30", "", "days that a quotation holds", _OWN, at_least=0, at_most=3650),
    Setting("wanted_window", "length", "6.35", "mm", "sizes that one new mount or extension can take, from least to greatest (1/4 in)", _OWN, at_least=0),
    Setting("options_per_post", "whole", "10", "", "kits shown per post in the site workbook; the data file has all", _OWN, at_least=1),
    # changes of the catalogue
    Setting("price_slip", "number", "0.5", "", "a price that moves by more than this fraction of itself is listed as a possible slip", _OWN, at_least=0),
    # pages
    Setting("show_units", "choice", "survey", "", "units that lengths are shown in: as the site's survey mostly has them, feet and inches to 1/16 in, or millimetres", _OWN, values=("survey", "ft-in", "mm")),
    Setting("paper", "choice", "Letter", "", "paper that the workbooks print on", _OWN, values=("Letter", "A4")),
)

BY_NAME: dict[str, Setting] = {s.name: s for s in SETTINGS}

SIZE_UNCERTAINTY = {
    "calipers": "size_uncertainty_calipers",
    "tape round the post": "size_uncertainty_tape",
    "rule across": "size_uncertainty_rule",
    "pipe mark": "size_uncertainty_pipe_mark",
    "drawing": "size_uncertainty_drawing",
    "estimate": "size_uncertainty_estimate",
}
"""Setting that bounds a size, by how it was measured."""

HEIGHT_UNCERTAINTY = {
    "tape": "height_uncertainty_tape",
    "level or laser": "height_uncertainty_level",
    "drawing": "height_uncertainty_drawing",
    "estimate": "height_uncertainty_estimate",
}
"""Setting that bounds a height, by how it was measured."""
