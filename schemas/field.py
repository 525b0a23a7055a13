"""The field sheet's table on `Check`, as it is written and as it is read when it comes back. Source: contract section 5."""

PROPERTY = "postquote-field"
"""Name of the workbook's own property that says which revision it answers to."""

SHEET = "Check"
POST, QUESTION, COLUMN, READ_AS, NEW_READING, WITH, BY, ON = (
    "Post", "Question", "Column", "Read as", "New reading", "With", "By", "On",
)  # fmt: skip
LOOKED_AT, WAS, UP_TO = "Looked at", "Was", "Up to [N m]"
"""Beside the table: whether all posts of one row were looked at, what stood in the survey's cell, a clearance's moment."""

ALL = "all"
"""What stands under `Looked at` where an answer is that of all posts of its row."""

A_ROW_EACH = 12
"""Posts of one row of the survey that are asked about one by one; more of them are asked about together."""
