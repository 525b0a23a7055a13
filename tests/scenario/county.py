"""What the county sent: a tab a school, two posts a row, posts in columns, and a clerk's own list with dittos."""

# ruff: noqa: E501 - tables of data, one row a line
from __future__ import annotations

from scenario.cells import Row, Sheet, table
from scenario.others import ods, text, xls
from scenario.workbooks import xlsx

# A foreman's workbook: the tab says which school, the customer stands above each table.
TAB_HEADS: Row = (
    "Post", "How many", "Shape", "OD [in]", "Wall [in]", "Material", "Height above ground", "Straightness", "Base", "Fittings",
    "Condition", "Rim height [ft]",
)  # fmt: skip

# post, how many, shape, od, wall, material, height, line, base, fittings, condition, rim
TABS = {
    "Quarry Lane School": """
N | 1 | round | 4 1/2 | 0.237 | steel | 8'6" | straight | cast in | none | sound | 10
S | 1 | round | 4 1/2 | 0.237 | steel | 8'6" | straight | cast in | none | sound | 10
Infants | 2 | round | 3 1/2 | 0.3 | steel | 8'6" | straight | cast in | removable | sound | 9
""",
    "Weir Bank School": """
1 | 2 | square | 4 | 0.25 | steel | 8'6" | straight | cast in | none | surface rust | 10
2 | 1 | square | 4 | 0.25 | steel | 7' | straight | cast in | none | sound | 10
""",
    "Osier Road School": """
1 | 1 | round | 5 9/16 | 0.258 | steel | 8'8" | straight | ground sleeve | fixed | sound | 10
2 | 1 | round | 5 9/16 | 0.258 | steel | 8'8" | gooseneck | ground sleeve | none | sound | 10
""",
}

# A coach's table: one row a ground, its two posts side by side.
BESIDE_HEADS: Row = (
    "Park", "Customer", "N pole shape", "N pole size (in)", "N pole wall (in)", "N pole height", "S pole shape", "S pole size (in)",
    "S pole wall (in)", "S pole height", "Material", "Straightness", "Base", "Fittings", "Condition", "Rim height (ft)", "Posts",
)  # fmt: skip

# park, customer, north: shape, size, wall, height; south: shape, size, wall, height; material, line, base, fittings, condition, rim, posts
BESIDE = """
Tanner's Green | Larch County Parks | round | 3.5 | 0.216 | 8'6" | round | 3.5 | 0.216 | 8'7" | steel | straight | cast in | none | sound | 10 | 2
Mill Meadow | ^ | round | 4.5 | 0.237 | 8'6" | square | 4 | 0.25 | 8'6" | steel | straight | cast in | none | sound | 10 |
Long Acre | ^ | round | 4.5 | 0.237 | 10'6" | | | | | steel | straight | cast in | none | sound | 10 | 1
Kiln Field | ^ | round | 3.5 | 0.216 | 8'6" | | | | | steel | straight | cast in | none | sound | 10 | 2
"""

# A surveyor's sheet: headings down the side, a column of units, a post in each further column.
IN_COLUMNS = """
School name | Fuller Street School
Customer | Larch County Schools
Surveyed on | 12 February 2026

Post | | N | S | E
Shape | | round | " | square
Post size | mm | 114.3 | " | 101.6
Measured with | | calipers | " | "
Wall thickness | mm | 6.02 | " | 6.35
Post material | | steel | " | "
Height above ground | m | 2.6 | 2.595 | 2.61
Height measured with | | level or laser | " | "
Court above ground | mm | 5 | " | -10
Post line | | straight | " | "
Post base | | cast in | " | "
Lean | deg | 0.2 | 0.1 | 0.3
Old fittings | | none | removable | none
Condition | | sound | " | surface rust
Ring height | m | 3.05 | " | "
"""

# A clerk's own list: a school's name in a row of its own, dittos, several posts in one cell, totals.
CLERK_HEADS: Row = ("Pole", "Shape", "Diameter", "Height", "Straightness", "Hardware", "Condition", "Rim height", "Comments")

# pole, shape, diameter, height, line, hardware, condition, rim, comments
CLERK = """
Bridge Foot Primary School
N & S | round | 3 1/2" | 8'6" | straight | none | good | 10' |
E | do. | 4 1/2" | do. | do. | bolted | do. | do. | old arm still up
Total | | | | | | | | 3
Causeway High School
1 to 4 | round | 4 1/2" | 8'6" | straight | none | good | 10' | all alike
5 | " | " | " | " | welded | " | " |
both | square | 4" | 8'6" | straight | none | good | 10' | by the gym
behind the kitchens
6 | round | 3 1/2" | 8'6" | straight | none | good | 10' |
Harbour View School
N | " | 3 1/2" | 8'6" | straight | none | good | 10' |
S | round | 3 1/2" | do | straight | none | good | 10' |
"""


def tabs() -> bytes:
    above: list[Row] = [["Customer: Larch County Schools"], []]
    sheets = [Sheet(name, [TAB_HEADS, *table(rows)], above, widths={0: 14, 6: 20}) for name, rows in TABS.items()]
    return xlsx([*sheets, Sheet("Notes", [["Measured in the first week of February"]])])


def columns() -> bytes:
    width = max(len(line.split("|")) for line in IN_COLUMNS.strip().splitlines())
    padded = "\n".join(line + " |" * (width - 1 - line.count("|")) for line in IN_COLUMNS.strip().splitlines())
    return ods([Sheet("Sheet1", table(padded))])


def clerk() -> bytes:
    above: list[Row] = [["Posts at our schools, as counted for the county"], ["Customer", "Larch County Schools"], []]
    return xls([Sheet("List", [CLERK_HEADS, *table(CLERK)], above)])


FILES = {
    "surveys/county/foreman_tabs.xlsx": tabs,
    "surveys/county/coach_two_a_row.csv": lambda: text([BESIDE_HEADS, *table(BESIDE)]),
    "surveys/county/surveyor_columns.ods": columns,
    "surveys/county/clerk_list.xls": clerk,
}
"""Path under input_examples, and what writes the file."""
