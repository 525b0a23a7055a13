"""What the city's parks sent: text tables of four makes, two workbooks, and a scan under a workbook's name."""

# ruff: noqa: E501 - tables of data, one row a line
from __future__ import annotations

from scenario.cells import Row, Sheet, table
from scenario.others import text, xlsb
from scenario.workbooks import xlsm

WEST_HEADS: Row = (
    "Site code", "Site name", "Owner", "Site kind", "Pole", "Shape", "Pole OD [mm]", "Measured with", "Wall [mm]", "Material",
    "Pole height [m]", "Pole line", "Pole base", "Existing fittings", "Condition", "Rim height [m]", "Min board width [cm]",
    "Footing diameter [cm]", "Footing depth [cm]", "Wind speed [km/h]", "Exposure", "Remarks",
)  # fmt: skip

# site, name, owner, kind, pole, shape, od, with, wall, material, height, line, base, fittings, condition, rim, width, footing, depth, wind, exposure, remarks
WEST = """
VF-101 | Mill Race Park | City of Vesper Ford | park | M1 | round | 114,3 | calipers | 6,02 | steel | 2,60 | straight | cast in | none | sound | 3,05 | 137 | 61 | 180 | 185 | C | by the café
^ | ^ | ^ | ^ | M2 | round | 114,3 | calipers | 6,02 | steel | 2,60 | straight | cast in | none | sound | 3,05 | 137 | 61 | 180 | 185 | C |
^ | ^ | ^ | ^ | M3 | round | 141,3 | calipers | 6,55 | steel | 2,62 | straight | cast in | none | sound | 3,05 | 152 | 76 | 200 | 185 | C | painted in 2019 – 3 coats
^ | ^ | ^ | ^ | M4 | round | 141,3 | calipers | 6,55 | steel | 2,62 | straight | cast in | none | sound | 3,05; 2,60 | 152 | 76 | 200 | 185 | C |
VF-102 | Quarry Field | City of Vesper Ford | park | Q1 | round | 88,9 | calipers | 5,49 | steel | 2 590 mm | straight | cast in | none | sound | 3,05 | 137 | 61 | 60 | 185 | C | footing is shallow
^ | ^ | ^ | ^ | Q2 | round | Ø88,9 mm | calipers | 5,49 | steel | 259 cm | straight | cast in | none | surface rust | 3,05 | 137 | 61 | 180 | 185 | C |
^ | ^ | ^ | ^ | Q3 | round | 88,9 | calipers | 5,49 | steel | 2,59 | straight | cast in | removable | sound | 2,90 | 137 | 61 | 180 | 185 | C | for the young ones
^ | ^ | ^ | ^ | Q4 | round | 88,9 | calipers | | aluminium | 2,59 | straight | cast in | none | sound | 3,05 | 122 | 61 | 180 | 185 | C |
"""

TOWN_HEADS: Row = (
    "Site code", "Site name", "Customer", "Post", "Number of posts", "Post shape", "Post size", "Post material", "Height above ground [ft-in]",
    "Post line", "Post base", "Old fittings", "Condition", "Ring heights wanted [ft]", "Board wanted", "Notes",
)  # fmt: skip

# site, name, customer, post, how many, shape, size, material, height, line, base, fittings, condition, rings, board, notes
TOWN = """
VF-103 | Clock Tower Green | City of Vesper Ford | C1 | 2 | round | NPS 3 sch 80 | steel | 8-6 | straight | cast in | none | sound | 10 | |
^ | ^ | ^ | C2 | 2 | round | 3 in sch 40 | steel | 8-6 1/2 | straight | cast in | none | sound | 10; 9; 8 | |
^ | ^ | ^ | C3 | | round | NPS 4 | steel | 8-6 | straight | cast in | unknown | sound | 10 | | stamped on the pipe
^ | ^ | ^ | C4 | | round | DN 80 | steel | 8-6 | unknown | cast in | none | sound | 10 | | seen from the road only
VF-104 | Ropewalk Square | City of Vesper Ford | R1 | 4 | square | 4 in | steel | 8-6 | straight | cast in | none | sound | 10 | B60-G |
^ | ^ | ^ | R2 | 2 | square | 4 in | steel | 10-6 | straight | cast in | none | sound | 10 | | old flag posts
^ | ^ | ^ | R3 | | other | 5 in | wood | 9-0 | straight | driven | none | sound | 10 | | six-sided timber
^ | ^ | ^ | R4 | | square | 4 in | steel | 8-6 | wavy | cast in | none | sound | 10 | | hard to say
^ | ^ | ^ | R5 | | round | DN 65 | steel | 8-6 | straight | cast in | none | sound | 10 | | two pipes have this name
^ | ^ | ^ | R6 | | square | 4 in | steel | 8-6 | straight | cast in | none | sound | 11 | | out of reach
"""

RIVER_HEADS: Row = (
    "Condition", "Notes", "Post", "Qty", "Site code", "Park", "Account", "Wall [in]", "Post size", "Size is", "Shape", "Steel?", "Post ht [in]",
    "Ring ht [ft]", "Old hardware", "Base", "Post profile", "Min board width [in]",
)  # fmt: skip

# condition, notes, post, qty, site, park, account, wall, size, basis, shape, steel, height, ring, hardware, base, line, width
RIVER = """
sound | | L1 | 2 | VF-105 | Long Landing | City of Vesper Ford | | NPS 5 sch 40 | | round | yes | 102 | 10 | none | cast in | straight | 72
sound | | L2 | 2 | ^ | ^ | ^ | | NPS 5 sch 40 | | round | yes | 88 | 10 | none | cast in | straight | 60
sound | pipe size in words | L3 | 1 | ^ | ^ | ^ | | 3 | nominal pipe size | round | yes | 102 | 10 | none | cast in | straight | 54
sound | says two things | L4 | 1 | ^ | ^ | ^ | | NPS 3 | outside diameter | round | yes | 102 | 10 | none | cast in | straight | 54
loose | rocks in the ground | L5 | 1 | ^ | ^ | ^ | 0.237 | 4.5 in | | round | yes | 102 | 10 | none | cast in | straight | 54
sound | formula broke | L6 | 1 | ^ | ^ | ^ | 0.237 | 4.5 in | | round | yes | !=VLOOKUP(C10,A1:B2,2,FALSE) -> #N/A | 10 | none | cast in | straight | 54
sound | worked out from two readings | L7 | 1 | ^ | ^ | ^ | 0.237 | 4.5 in | | round | yes | !=96+6 -> 102 | 10 | none | cast in | straight | 54
"""

ISLAND_HEADS: Row = (
    "Site code", "Site name", "Customer", "Post", "Identical posts", "Post shape", "Post size [in]", "Height above ground [in]", "Post line",
    "Old fittings", "Post base", "Wall thickness [in]", "Post material",
)  # fmt: skip

# site, name, customer, post, how many, shape, size, height, line, fittings, base, wall, material
ISLAND = """
VF-106 | Heron Island | City of Vesper Ford | 1 | 2 | round | 4.5 | 90 | straight | none | cast in | 0.237 | steel
VF-106 | Heron Island | City of Vesper Ford | 2 | 1 | round | 4.5 | 84 | straight | none | cast in | | steel
VF-106 | Heron Island | City of Vesper Ford | 3 | 1 | round | 4.5 | 102 | straight | none | cast in | 0.237 | steel
"""

HARBOUR_HEADS: Row = (
    "Site code", "Site name", "Customer", "Post", "Post shape", "Post size [in]", "Height above ground [ft]", "Post line", "Old fittings",
    "Post material", "Post base", "Least board width [in]", "Mount asked for", "Court above ground [in]",
)  # fmt: skip

# site, name, customer, post, shape, size, height, line, fittings, material, base, width, mount, court
HARBOUR = """
VF-107 | Harbour Steps | City of Vesper Ford | H1 | round | 3 1/2 | 8′6″ | straight | none | unknown | cast in | 48 | | -6
^ | ^ | ^ | H2 | round | 3 1/2 | 8′6″ | straight | none | steel | cast in | 60 | RL35-S | 0
^ | ^ | ^ | H3 | round | 3 1/2 | 8′6″ | bent | none | steel | cast in | 48 | |
^ | ^ | Harbor Trust | H4 | round | 3 1/2 | 8′6″ | straight | none | steel | cast in | 48 | |
^ | ^ | City of Vesper Ford | H5 | round | 4 1/2 | 6′4″ | straight | none | steel | cast in | 48 | | 6
^ | ^ | ^ | H6 | round | 4 1/2 | 8′2″ | straight | none | steel | cast in | 48 | |
^ | ^ | ^ | H7 | round | 3 1/2 | 8′6″ | straight | | steel | cast in | 48 | | 6
"""

SCAN = (
    b"%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj 2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n"
    b"3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]>>endobj\ntrailer<</Root 1 0 R>>\n%%EOF\n"
)
"""A page without a word on it, saved under a workbook's name."""


def riverside() -> bytes:
    keep: list[Row] = [["Parks office: keep this sheet as it is"]]
    return xlsm(
        [
            Sheet("Read me", [["Press the button on the next sheet to print."]], heads=0),
            Sheet("Posts", [RIVER_HEADS, *table(RIVER)], keep),
        ]
    )


FILES = {
    "surveys/city/parks_west.csv": lambda: text([WEST_HEADS, *table(WEST)], ";", "cp1252", "\r\n"),
    "surveys/city/parks_town.tsv": lambda: text([TOWN_HEADS, *table(TOWN)], "\t"),
    "surveys/city/riverside.xlsm": riverside,
    "surveys/city/heron_island.xlsb": lambda: xlsb(Sheet("Island", [ISLAND_HEADS, *table(ISLAND)])),
    "surveys/city/harbour.csv": lambda: text([HARBOUR_HEADS, *table(HARBOUR)], "\t", "utf-16", "\r\n"),
    "surveys/city/old_scan.xlsx": lambda: SCAN,
}
"""Path under input_examples, and what writes the file."""
