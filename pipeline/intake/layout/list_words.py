"""The words of the list `To correct` by which it is known when the workbook comes back."""

from __future__ import annotations

TITLE = "To correct"
"""Name of the sheet; a sheet of that name is no survey when the workbook comes back."""

SIGN = "Please correct and send back: "
"""How the first cell of the sheet begins; by it an earlier list of ours is known."""

HEADINGS = (
    "No.", "On the sheet", "In cell", "Stands there now", "What is wrong", "Type this instead", "Your answer", "Row waits",
)  # fmt: skip
SHEET, CELL, STANDS, ANSWER = (HEADINGS.index(h) for h in ("On the sheet", "In cell", "Stands there now", "Your answer"))
"""Places of the columns by which an answer is read back."""

NOTHING = "nothing"
"""The answer that a heading means no column of the survey."""

BLANK = "(blank)"
"""What stands for a blank cell under `Stands there now`."""
