"""The few codes that files, findings and queries use, each with its plain words."""

from __future__ import annotations

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

FIT_CODES = ("SHAPE", "SIZE", "LINE", "LEAN", "FITTINGS", "CONDITION", "BASE", "CLEAR", "HEIGHT", "JOINT")
"""Findings about a post with a mount, in the order in which files list them."""

KIT_CODES = ("BOARD", "STRENGTH", "FOOTING")
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
}

SITE_STATES = ("ready", "to_confirm", "incomplete")
LOAD_STATES = ("within", "over", "unknown")

CAUTION = (
    "This is a rough screen and not a design. No published standard covers a new board on an old post. "
    "Before anything is ordered or mounted, have the loads, the post and its footing checked against the local code "
    "by a licensed engineer."
)
"""Stands wherever a load or a fit is shown."""

NOT_LOOKED_AT = (
    "Not looked at: slip of the clamps and torsion from wind off centre, fatigue, welds, rust at the ground line, "
    "local crushing of thin walls under bolts or bands, slender walls in compression, hills and ridges, frost and uplift, "
    "a load on the ring's front edge beyond the push case, a second board on the same post."
)
"""Stands beside the load figures."""
