"""The words of the list `To correct` by which it is known when the workbook comes back."""

from __future__ import annotations

TITLE = "To correct"
"""Name of the sheet; a sheet of that name is no survey when the workbook comes back."""

SIGN = "Please correct and send back: "
"""How the first cell of the sheet begins; by it an earlier list of ours is known."""

HEADINGS = (
    "No.", "On the sheet", "In cell", "Stands there now", "What is wrong", "Type this instead", "Your answer", "Row waits",
)  # fmt: skip
SHEET, CELL, STANDS, WRONG, ANSWER = (
    HEADINGS.index(h) for h in ("On the sheet", "In cell", "Stands there now", "What is wrong", "Your answer")
)
"""Places of the columns by which an answer is read back."""

ASKED = "Is column "
"""How a question about a heading begins, by which its answer is known to hold for all headings of those words."""

NOTHING = "nothing"
"""The answer that a heading means no column of the survey."""

BLANK = "(blank)"
"""What stands for a blank cell under `Stands there now`."""
