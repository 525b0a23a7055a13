"""The few codes that files, findings and queries use, each with its plain words."""

from __future__ import annotations

from schemas.findings import FIT_RULES, KIT_RULES

VERDICTS = ("viable", "viable_confirm", "viable_extended", "not_viable")
"""Verdict of a post with a mount, and of a kit, best first; the index is the number used in arrays."""

VERDICT_WORDS = {
    "viable": "fits",
    "viable_confirm": "fits, if what is named is confirmed on site",
    "viable_extended": "fits with the named extension",
    "not_viable": "does not fit",
    "no_kit": "nothing in the catalogue fits",
}

STATES = ("pass", "confirm", "fail")
"""Answer of one rule; the index is the number used in arrays."""

FIT_CODES = tuple(r.code for r in FIT_RULES)
"""Findings about a post with a mount, in the order in which files list them."""

KIT_CODES = tuple(r.code for r in KIT_RULES)
"""Findings about a kit."""

FINDING_CODES = FIT_CODES + KIT_CODES

QUERY_CODES = {
    "MISSING": "a needed cell is blank",
    "UNREADABLE": "what stands there cannot be read as one value",
    "NO_UNIT": "a number without a unit in the cell or the heading",
    "DATE_CELL": "the spreadsheet program has turned what was typed into a date",
    "ERROR_CELL": "an error value, or a formula without a stored result",
    "NOT_IN_LIST": "the word is not one of the list",
    "IMPLAUSIBLE": "the value lies outside what is plausible",
    "DUPLICATE": "the same post of the same site stands there more than once",
    "CONFLICT": "two statements contradict each other",
    "ASKED": "an item that was asked for is unknown, withdrawn or does not fit",
    "NO_HEADINGS": "no row of headings was found",
    "UNREADABLE_FILE": "the file cannot be read",
    "HEADING": "which column does this heading mean?",
}

HOW_READ = {
    "same_as_above": "the same as in the row above, as its mark says",
    "block": "as in the first row of its block",
    "title": "from a title, or another line outside the table",
    "sheet_name": "from the name of the sheet",
    "section_row": "from the row above that names the site",
    "group_heading": "from the heading of its group of columns",
    "type_table": "from the table of types of posts",
    "post_cell": "as many as the Post cell names",
    "remark": "as many as the remark says",
    "made": "made, since none is stated",
    "inferred": "as the size says",
    "schedule": "of the stated schedule",
    "size_cell": "as the size's cell says",
    "words": "as those words say",
    "seller_words": "as the catalogue's own list of words says",
    "answered": "as answered in the marked copy",
    "field_sheet": "as measured again on the field sheet",
}
"""Where a value comes from that was not typed in the cell itself (`how` of data/readings.csv), and its words."""

SITE_STATES = ("ready", "to_confirm", "incomplete")
PROMISES = ("sent", "accepted", "declined")
"""What became of a quotation."""

LOAD_STATES = ("within", "over", "unknown")

CAUTION = (
    "This is a rough screen and not a design. No published standard covers a new board on an old post. "
    "Before anything is ordered or mounted, have the loads, the post and its footing checked against the local code "
    "by a licensed engineer."
)
"""Stands wherever a load or a fit is shown."""

CAUTION_IN_SHORT = "A rough screen, not a design: a licensed engineer must check loads, post and footing against the local code."
"""Stands on every printed page that shows a load or a fit."""

NOT_LOOKED_AT = (
    "Not looked at: slip of the clamps and torsion from wind off centre, fatigue, welds, rust at the ground line, "
    "local crushing of thin walls under bolts or bands, slender walls in compression, hills and ridges, frost and uplift, "
    "a load on the ring's front edge (the push case covers it only in part), a second board on the same post, a pull sideways "
    "on the ring (its torque at the clamps is shown for the mount's maker to judge), play that is harder than the static test "
    "load, the strength of mount, board and ring themselves, the steel's grade, soil on a slope or wet, the concrete, play "
    "together with reduced wind (ASCE 7-16, 2.4.1, number 6)."
)
"""Stands beside the load figures."""

ON_SITE_CHECKS = (
    ("Post at the ground line", "Hammer and look at the ground line and under collars: that is where old posts fail."),
    ("Footing", "Push the post and watch the footing."),
    ("Post size", "Take two caliper readings at right angles where the clamps go."),
    ("Levels", "Take the level under the ring, not at the post: 1 % of fall over 4 ft (1.2 m) is 1/2 in (12 mm)."),
    ("Post top", "Before an extension: is the top open or filled?"),
    ("Square posts", "Does the post's face point towards the court?"),
    ("Overhead", "Look for overhead lines, trees and lights."),
    ("Light or cable", "A light or a cable on the post: stop and ask."),
    ("Court surface", "Is the court to be resurfaced? The ring height changes with it."),
    ("Old paint", "Test for lead paint before stripping."),
    ("Run-off", "Keep 6 ft 7 in (2 m) free beyond the lines (FIBA)."),
    ("Access", "Is there room for a lift? Glass takes two people and a lift."),
    ("Cap", "Cap the post."),
    ("Afterwards", "Retighten after some weeks, then look each year."),
)
"""What somebody must look at on site, whatever the figures say; common practice unless a source is named."""
