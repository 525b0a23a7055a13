"""What the league's volunteers sent: a spring count, an autumn recount that meets it, and a hall's list."""

# ruff: noqa: E501 - tables of data, one row a line
from __future__ import annotations

from scenario.cells import Row, Sheet, table
from scenario.workbooks import without_results, xlsx

# Headings over two rows: groups above, columns below.
GROUPS: Row = (
    "Ground", None, None, "Post", None, None, None, None, None, "Height", None, "Post", None, "Old", "Wanted", None, "Fence",
)  # fmt: skip
BELOW: Row = (
    "Site code", "Site name", "Customer", "Code", "Quantity", "Shape", "Size [in]", "Wall [in]", "Material", "above ground [ft]",
    "measured with", "Line", "Base", "fittings", "Ring heights [ft]", "Least board width [in]", "Height [ft]",
)  # fmt: skip

# site, name, customer, code, how many, shape, size, wall, material, height, with, line, base, fittings, rings, width, fence
SPRING = """
TB-1 | Tern Bay Courts | Tern Bay Youth League | 1 | 2 | round | 4.5 | 0.237 | steel | 8.5 | tape | straight | cast in | none | 10; 9; 8 | 48 | 6
^ | ^ | ^ | 2 | 2 | round | 4.5 | 0.237 | steel | 8.5 | level or laser | straight | cast in | none | 10; 9 | 54 | 6
^ | ^ | ^ | 3 | 1 | round | 5.5625 | 0.258 | steel | 8.75 | tape | straight | ground sleeve | none | 10 | 60 | 6
TB-2 | Gravel Spit Courts | Tern Bay Youth League | 1 | 2 | round | 3.5 | 0.216 | steel | 8.5 | tape | straight | driven | removable | 10; 7.5 | 44 | 4
^ | ^ | ^ | 2 | 1 | round | 3.5 | 0.216 | steel | 10.5 | tape | straight | driven | removable | 10 | 44 | 4
^ | ^ | ^ | 3 | 1 | round | 3.5 | | steel | 7 | tape | straight | driven | none | 8 | 44 | 4
^ | ^ | ^ | 4 | 1 | round | 3.5 | | steel | 7.125 | tape | straight | driven | none | 10 | 44 | 4
^ | ^ | ^ | 5 | 1 | round | 3.5 | | steel | 8.5 | drawing | straight | driven | none | 10 | 44 | 4
"""

RECOUNT_HEADS: Row = (
    "Site code", "Site name", "Customer", "Post", "Qty", "Shape", "OD [in]", "Wall [in]", "Material", "Height [ft]", "Height taken with",
    "Straightness", "Base", "Fittings", "Rim heights [ft]", "Min board width [in]", "Who",
)  # fmt: skip

# site, name, customer, post, how many, shape, od, wall, material, height, with, line, base, fittings, rims, width, who
RECOUNT = """
TB-1 | Tern Bay Courts | Tern Bay Youth League | 3 | 1 | round | 5 9/16 | 0.258 | steel | 8' 9" | tape | straight | ground sleeve | none | 10 | 60 | J.
TB-2 | Gravel Spit Courts | Tern Bay Youth League | 5 | 1 | round | 3.5 | | steel | 8.25 | tape | straight | driven | none | 10 | 44 | J.
^ | ^ | ^ | 6 | 1 | round | 3.5 | 0.216 | steel | 8.5 | tape | straight | driven | fixed | 10 | 44 | J.
TB-3 | Ferry Yard Courts | Tern Bay Youth League | 1 | 3 | round | 4.5 | 0.237 | steel | 7' 6" | tape | straight | cast in | none | 10 | 48 | M.
^ | ^ | ^ | 2 | 1 | round | 4.5 | 0.237 | steel | 8' 6" | estimate | straight | cast in | removable | 10 | 48 | M.
^ | ^ | ^ | 3 | 2 | round | 4.5 | 0.237 | steel | 8' 6" | tape | tapered | cast in | none | 10; 8 | 54 | M.
"""

HALL_HEADS: Row = (
    "Site code", "Site name", "Customer", "Site kind", "Post", "Qty", "Post shape", "Post size [in]", "Wall thickness [in]", "Post material",
    "Height above ground [in]", "Post line", "Post base", "Old fittings", "Condition", "Least board width [in]", "Soil class", "Notes",
    "Date of survay",
)  # fmt: skip

# site, name, customer, kind, post, qty, shape, size, wall, material, height, line, base, fittings, condition, width, soil, notes, day
HALL = """
SM-1 | Saltmarsh Community Hall | Saltmarsh Hall Trust | other | Yard 1 | 1 | square | 4 | 0.25 | steel | 102 | straight | cast in | none | sound | 54 | 3 | | 2026-02-14
^ | ^ | ^ | ^ | Yard 2 | 1 | square | 4 | 0.25 | steel | !=H2+98 | straight | cast in | none | sound | 54 | 3 | file never opened since | 2026-02-14
^ | ^ | ^ | ^ | Yard 3 | 1 | square | 4 | 0.25 | steel | 102 | straight | cast in | none | corroded | 54 | 3 | hole at the ground line | 2026-02-14
^ | ^ | ^ | ^ | Yard 4 | half | square | 4 | 0.25 | steel | 102 | straight | cast in | none | sound | 54 | 3 | | 2026-02-14
"""

FILES = {
    "surveys/league/spring/courts.xlsx": lambda: xlsx(
        [Sheet("Courts", [GROUPS, BELOW, *table(SPRING)], [["Spring count"]], heads=2, widths={1: 20, 2: 22})]
    ),
    "surveys/league/autumn/recount.xlsx": lambda: xlsx([Sheet("Recount", [RECOUNT_HEADS, *table(RECOUNT)])]),
    "surveys/league/saltmarsh_hall.xlsx": lambda: without_results([Sheet("Yard", [HALL_HEADS, *table(HALL)])]),
}
"""Path under input_examples, and what writes the file."""
