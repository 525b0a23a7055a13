"""What the caretakers of the school district sent: five surveys of five makes, our own form, and a list that is none."""

# ruff: noqa: E501 - tables of data, one row a line
from __future__ import annotations

from scenario.cells import Row, Sheet, table
from scenario.others import ods, text, xls
from scenario.workbooks import form_filled, typed_rows, xlsx

NORTH_HEADS: Row = (
    "Site code", "Site name", "Customer", "Site kind", "Post", "Identical posts", "Post shape", "Post size [in]", "Measured with",
    "Wall thickness [in]", "Post material", "Height above ground [ft]", "Court above ground [in]", "Clear straight length [in]",
    "Post line", "Post base", "Lean", "Old fittings", "Condition", "Ring heights wanted [ft]", "Least board width [in]",
    "Mount asked for", "Board asked for", "Post to end line [ft]", "Footing diameter [in]", "Footing depth [in]", "Notes",
)  # fmt: skip

# site, name, customer, kind, post, how many, shape, size, with, wall, material, height, rise, clear, line, base, lean, fittings,
# condition, rings, least width, mount, board, end line, footing diameter, footing depth, notes
NORTH = """
NM-ALD | Alder Lane Elementary | Northmere Schools | school | A1 | 2 | round | 4 1/2 | calipers | 0.237 | steel | 8'6" | | | straight | cast in | | none | sound | 10; 8 | 54 | | | 4 | 24 | 72 | main court
^ | ^ | ^ | ^ | A2 | 2 | round | 4.5 | calipers | 0.237 | steel | 8'7" | | | straight | cast in | | none | sound | 10; 8 | 54 | | | 4 | 24 | 72 | cross courts
^ | ^ | ^ | ^ | A3 | 1 | round | 4 1/2 | tape round the post | 0.237 | steel | 8' 6 1/2" | | | straight | cast in | | none | surface rust | 10 | 54 | | | 4 | 24 | 72 |
^ | ^ | ^ | ^ | A4 | 1 | round | 4 1/2 | calipers | 0.237 | steel | 10'6" | | 60 | straight | cast in | 0.2 deg | none | sound | 10 | 48 | | | 4 | 24 | 72 | the tall one
^ | ^ | ^ | ^ | A5 | 1 | round | 3 1/2 | calipers | 0.3 | steel | 8'6" | | | straight | cast in | | none | sound | 9 | 48 | | | 4 | 30 | 78 | thick pipe, small children's court
NM-BRK | Brook Hollow Middle School | Northmere Schools | school | 1 | 2 | round | 3 1/2 | calipers | 0.216 | steel | 8'6" | | | straight | cast in | | removable | surface rust | 10 | 54 | | | 3 | | |
^ | ^ | ^ | ^ | 2 | 2 | round | 3 1/2 | rule across | | steel | 8'8" | 1 1/2 | 40 | straight | cast in | | removable | surface rust | 10; 8'6" | 54 | RL35-C | | 3 | | | crank wished for
^ | ^ | ^ | ^ | 3 | 1 | round | 3 1/2 | calipers | | steel | 8'6" | | | gooseneck | cast in | | none | sound | 10 | 54 | | | 3 | | | bends over the court
^ | ^ | ^ | ^ | 4 | 1 | round | 3 1/2 | calipers | | steel | 8'6" | | | tapered | cast in | | unknown | sound | 10 | 54 | | | 3 | | |
^ | ^ | ^ | ^ | 5 | 1 | round | 3 1/2 | calipers | 0.216 | steel | 8'6" | | | straight | base plate | | none | sound | 10 | 48 | | | 3 | | | four bolts
^ | ^ | ^ | ^ | 6 | 1 | round | 3 1/2 | calipers | 0.216 | steel | 8'6" | | 6 | straight | cast in | | none | sound | 10 | 48 | | | 3 | | | old arm stub 6 in down
^ | ^ | ^ | ^ | 7 | 1 | round | 3 1/2 | calipers | 0.216 | steel | 7'6" | | | straight | cast in | | none | sound | 10 | 48 | | | 3 | | | cut short once
^ | ^ | ^ | ^ | 8 | 1 | square | 4 | calipers | 0.25 | steel | 8'6" | | | straight | cast in | 3 deg | none | sound | 10 | 54 | | | 5 | | | hit by a mower
NM-CED | Cedar Rise High School | Northmere Schools | school | N1 | 2 | square | 4 | calipers | 0.25 | steel | 8'6" | | | straight | cast in | | none | sound | 10 | 54 | | | 5 | 24 | 72 |
^ | ^ | ^ | ^ | N2 | 1 | square | 4 | calipers | 0.25 | steel | 8'6" | | | straight | cast in | 1/4 in per ft | none | sound | 10 | 54 | | | 5 | 24 | 72 | leans to the fence
^ | ^ | ^ | ^ | S1 | 2 | round | 5 9/16 | tape round the post | 0.258 | steel | 8'6" | | | straight | cast in | | none | sound | 10 | 72 | | B72-G | 6 | 30 | 84 | show court
^ | ^ | ^ | ^ | S2 | 2 | round | 5 9/16 | tape round the post | 0.258 | steel | 8'6" | | | straight | cast in | | none | sound | 10 | 72 | RL35-S | | 6 | 30 | 84 |
^ | ^ | ^ | ^ | S3 | 1 | square | 6 | rule across | 0.1875 | steel | 10'8" | | | straight | cast in | | none | sound | 10 | 60 | | | 6 | 24 | 30 | footing seen when the drain was dug
^ | ^ | ^ | ^ | N3 | 1 | square | 4 | calipers | 0.25 | steel | 8'6" | | | straight | cast in | | none | sound | 10 | 54 | | B54-W | 5 | | |
NM-IVY | Ivy Dale Elementary | Northmere Schools | school | 1 | 4 | round | 4 1/2 | calipers | 0.237 | steel | 8'6" | | | straight | cast in | | none | surface rust | 10; 9; 8 | 48 | | | 4 | 24 | 72 | four alike
^ | ^ | ^ | ^ | 2 | 1 | round | 4 1/2 | calipers | 0.237 | steel | 8'10" | 2 | 70 | straight | ground sleeve | 1:200 | removable | sound | 10 | 48 | | | 4 | 24 | 72 | old net hoop bolted on
"""

SOUTH_HEADS: Row = (
    "Pole no", "Site code", "School", "District", "Qty", "Shape", "OD (in)", "Wall (in)", "Material", "Pole height (ft)", "Straightness",
    "Pole base", "Existing hardware", "Condition", "Rim height (ft)", "Bracket wanted", "Board wanted", "Ring wanted",
    "Min board width (in)", "Remarks",
)  # fmt: skip

# pole, site, school, district, qty, shape, od, wall, material, height, straightness, base, hardware, condition, rim, bracket, board, ring, min width, remarks
DRY = """
1 | NM-DRY | Dry Creek Elementary | Northmere Schools | 2 | pipe | 3.5 | 0.3 | steel | 8.5 | straight | in concrete | bare | good | 10 | | | | 44 |
2 | ^ | ^ | ^ | 1 | pipe | !2002-03-01 d-mmm-yy | 0.3 | steel | 8.5 | straight | in concrete | bare | good | 10 | | | | 44 |
3 | ^ | ^ | ^ | 1 | pipe | 3.5 | 0.3 | steel | !2026-08-06 d-mmm | straight | in concrete | bare | good | 10 | | | | 44 |
4 | ^ | ^ | ^ | 2 | pipe | 2.375 | 0.154 | steel | 10.5 | straight | driven in | bolted on | good | 10 | | | | | tether poles
5 | ^ | ^ | ^ | 1 | pipe | 3.375 | | steel | 8.5 | straight | in concrete | bare | good | 10 | | | R5 | 44 |
6 | ^ | ^ | ^ | 1 | pipe | 3.65 | | steel | 8.5 | straight | in concrete | bare | good | 10 | | | | 44 | measured twice with the rule
7 | ^ | ^ | ^ | 1 | pipe | 3.5 | 0.3 | steel | 8.5 | straight | on wheels | bare | good | 10 | | | | 44 |
"""
ELM = """
E1 | NM-ELM | Elm Court Elementary | Northmere Schools | 2 | sq | 4 | 0.25 | galvanized steel | 8.5 | straight | in concrete | welded | good | 10 | | | | 54 |
E2 | ^ | ^ | ^ | 2 | sq | 4 | 0.25 | galvanized steel | 7 | straight | in concrete | bare | good | 10 | | | | 54 |
E3 | ^ | ^ | ^ | 1 | sq | 4 | 0.25 | galvanized steel | 8.5 | straight | in concrete | bare | cracked | 10 | | | | 54 | crack at the collar
E4 | ^ | ^ | ^ | 1 | octagonal | 4 | 0.25 | galvanized steel | 8.5 | straight | in concrete | bare | good | 10 | | | | 54 |
E5 | ^ | ^ | ^ | 1 | sq | | 0.25 | galvanized steel | 8.5 | straight | in concrete | bare | good | 10 | | | | 54 | no ladder that day
E6 | ^ | ^ | ^ | 1 | sq | 4 | 0.25 | galvanized steel | about 8.5 | straight | in concrete | bare | good | 10 | | | | 54 |
E7 | ^ | ^ | ^ | 1 | sq | 4 | 0.25 | galvanized steel | 8.5 | straight | in concrete | bare | good | 10 | QL40-S | B44-S | | 54 | asked for by the principal
"""

EAST_HEADS: Row = (
    "Site code", "Site name", "Customer", "Post", "Qty", "Shape", "Outside diameter", "Height", "Post line", "Old fittings", "Base",
    "Rim height", "Comments",
)  # fmt: skip

# site, name, customer, post, qty, shape, diameter, height, line, fittings, base, rim, comments
EAST = """
NM-FEN | Fen Bridge Elementary | Northmere Schools | P1 | '2 | round | 3 1/2" | 8'-6" | straight | none | cast in | 10' |
^ | ^ | ^ | P2 | '2 | round | 3-1/2" | 8' 6" | straight | none | cast in | 10' | beside the shed
^ | ^ | ^ | P3 | | round | 3½ in | 8 ft 6 in | straight | none | unknown | 10 ft |
^ | ^ | ^ | P4 | | round | 3.5 in OD | '8.5 | straight | none | cast in | 10' | no unit
^ | ^ | ^ | P5 | | round | 11/2" | 8'6" | straight | none | cast in | 10' | fraction too hasty
^ | ^ | ^ | P6 | | round | 3 1/2" | 8-9 ft | straight | none | cast in | 10' | a range
^ | ^ | ^ | P7 | | round | 3 1/2" | 102" | straight | none | cast in | 10'; 8' |
^ | ^ | ^ | P8 | | round | 3 1/2" | 85' | straight | none | cast in | 10' | a point forgotten
"""

GLEN_HEADS: Row = (
    "Post code", "Posts", "Site code", "Site name", "Customer", "Shape", "Post OD (mm)", "Size measured with", "Wall (mm)", "Post material",
    "Height above ground (mm)", "Height method", "Court level (mm)", "Straight or gooseneck", "Old fittings", "Tilt", "Wanted ring heights (m)",
    "Painted",
)  # fmt: skip

# post, posts, site, name, customer, shape, od, with, wall, material, height, method, court, line, fittings, tilt, rings, painted
GLEN = """
G1 | 2 | NM-GLN | Glen Park Annex | Northmere Schools | round | 114.3 | calipers | 6.02 | steel | 2600 | laser | 5 | straight | none | 1:200 | 3.05; 2.60 | green
G2 | 1 | ^ | ^ | ^ | round | 114.3 | estimate | 6.02 | steel | 2600 | laser | 0 | straight | none | | 3.05 | green
G3 | 1 | ^ | ^ | ^ | round | 119 | estimate | 6.02 | steel | 2600 | laser | 0 | straight | none | | 3.05 | green
G4 | 1 | ^ | ^ | ^ | round | 114.3 | calipers | 6.02 | steel | 2600 | estimate | 0 | straight | none | | 3.05 | green
G5 | 1 | ^ | ^ | ^ | round | 114.3 | calipers | 6.02 | steel | 2750 | estimate | 0 | straight | none | 10 mm/m | 3.05 | no
G6 | 1 | ^ | ^ | ^ | round | 114.3 | calipers | 6.02 | steel | 2300 | tape | 0 | straight | none | | 3.05 | no
G7 | 1 | ^ | ^ | ^ | round | 3.5 | calipers | | steel | 2600 | tape | 0 | straight | none | | 3.05 | no
G8 | 1 | ^ | ^ | ^ | round | 360 | calipers | | steel | 2600 | tape | 0 | straight | none | | 3.05 | no
"""

HAW_HEADS: Row = (
    "Site code", "Site name", "Customer", "Site kind", "Post", "Identical posts", "Post shape", "Post size", "Size is", "Measured with",
    "Wall thickness", "Post material", "Height above ground", "Post line", "Post base", "Old fittings", "Condition", "Ring heights wanted",
    "Least board width", "Mount asked for", "Soil class", "Wind speed", "Exposure", "Notes",
)  # fmt: skip

# site, name, customer, kind, post, how many, shape, size, basis, with, wall, material, height, line, base, fittings, condition, rings, width, mount, soil, wind, exposure, notes
HAW = """
NM-HAW | Hawthorn Hill Elementary | Northmere Schools | school | East 1 | 2 | round | 11 in | circumference | tape round the post | 0.3 | steel | 8' 6" | straight | cast in | none | sound | 10 | 44 | | 3 | 120 | B |
^ | ^ | ^ | ^ | East 2 | 2 | round | 11 | circumference | tape round the post | 0.3 | steel | 8.5 | straight | cast in | removable | surface rust | 10 ft; 8 ft | 44 | | 3 | 120 | B |
^ | ^ | ^ | ^ | West 1 | 1 | square | 12 1/2 in | circumference | tape round the post | 0.25 | steel | 8.5 | straight | cast in | none | sound | 10 | 44 | | 3 | 120 | B | tape went round a square post
^ | ^ | ^ | ^ | West 2 | 1 | round | 14 1/8 in | circumference | tape round the post | 0.237 | steel | 8.5 | straight | ground sleeve | none | sound | 10 | 44 | RL45-X | 3 | 120 | B | code from memory
^ | ^ | ^ | ^ | West 3 | 1 | round | 3 1/2 in | | calipers | 2 in | steel | 8.5 | straight | ground sleeve | none | sound | 10 | 44 | | 3 | 120 | B |
"""

KEYS: list[Row] = [
    ["Gate keys, who has them"],
    [],
    ["School", "Holder", "Copies"],
    ["Alder Lane", "front office", 2],
    ["Brook Hollow", "front office", 1],
    ["Cedar Rise", "gym office", 3],
]


def north() -> bytes:
    above: list[Row] = [
        ["Northmere Schools: posts on the outdoor courts, north"],
        ["One row a post, or a number of posts that are alike"],
        [],
    ]
    return xlsx([Sheet("North", [NORTH_HEADS, *table(NORTH)], above, merged=8, widths={1: 27, 2: 19, 8: 18, 26: 32})])


def south() -> bytes:
    sheets = []
    for name, rows, posts in (("Dry Creek", DRY, 9), ("Elm Court", ELM, 9)):
        below: list[Row] = [["Total", None, None, None, posts], [], ["Measured by the caretakers in the week of the frost"]]
        sheets.append(Sheet(name, [SOUTH_HEADS, *table(rows)], [[f"{name}, posts at the courts"], []], below))
    return xls(sheets)


def glen() -> bytes:
    return ods([Sheet("Annex", [GLEN_HEADS, *table(GLEN)], [["Glen Park Annex, measured in mm"]], hidden=(9,))])


FILES = {
    "surveys/district/north_schools.xlsx": north,
    "surveys/district/south_schools.xls": south,
    "surveys/district/east_schools.csv": lambda: text([EAST_HEADS, *table(EAST)], newline="\r\n"),
    "surveys/district/glen_park_annex.ods": glen,
    "surveys/district/hawthorn_hill_form.xlsx": lambda: form_filled(typed_rows([HAW_HEADS, *table(HAW)])),
    "surveys/district/gate_keys.xlsx": lambda: xlsx([Sheet("Keys", KEYS, heads=0)]),
}
"""Path under input_examples, and what writes the file."""
