"""What the dealer of the scenario sells: codes, figures and prices are made up, the geometry is the trade's.

Common practice, no source: a mount that lifts needs 8 1/2 ft of post for a ring at 10 ft and goes down by
2 1/2 ft; one that does not needs 10 1/2 ft; boards run from 44 to 72 in.
"""

# ruff: noqa: E501 - tables of data, one row a line
from __future__ import annotations

from scenario.cells import Row, Sheet, table
from scenario.workbooks import xlsx
from schemas.catalogue import CATALOGUE

# mount, description, shape, least, most, fastening, adjustment, needed, for ring, travel, step, clamp, overhang, width, mass most, mass, price, status
MOUNTS = """
RL35-S | Lifting mount, steps of 6 in, 3 1/2 in round | round | 3.375 | 3.625 | u-bolt | stepped | 8.5 | 10 | 2.5 | 6 | 10 | 28 | 54 | 170 | 88 | 412 | active
RL35-C | Lifting mount with crank, 3 1/2 in round | round | 3.375 | 3.625 | u-bolt | continuous | 8.5 | 10 | 2.5 | | 10 | 30 | 54 | 170 | 97 | 566.5 | active
RL45-S | Lifting mount, steps of 6 in, 4 1/2 in round | round | 4.375 | 4.625 | band | stepped | 8.5 | 10 | 2.5 | 6 | 10 | 30 | 60 | 235 | 112 | 498 | active
RL45-C | Lifting mount with crank, 4 1/2 in round | round | 4.375 | 4.625 | band | continuous | 8.5 | 10 | 2.5 | | 10 | 32 | 60 | 235 | 121 | 655 | active
RL56-S | Lifting mount, steps of 6 in, 5 9/16 in round | round | 5.5 | 5.625 | band | stepped | 8.5 | 10 | 2.5 | 6 | 12 | 34 | 72 | 330 | 138 | 645 | active
RL56-C | Lifting mount with crank, 5 9/16 in round | round | 5.5 | 5.625 | band | continuous | 8.5 | 10 | 2.5 | | 12 | 36 | 72 | 330 | 149 | 812 | active
RF24 | Fixed arm, 2 3/8 in round | round | 2.3125 | 2.4375 | u-bolt | fixed | 10.5 | 10 | | | 8 | 20 | 44 | 85 | 31 | 149 | active
RF35 | Fixed arm, 3 1/2 in round | round | 3.375 | 3.625 | u-bolt | fixed | 10.5 | 10 | | | 8 | 30 | 54 | 170 | 44 | 196 | active
RF45 | Fixed arm, 4 1/2 in round | round | 4.375 | 4.625 | u-bolt | fixed | 10.5 | 10 | | | 8 | 36 | 60 | 235 | 57 | 238 | active
RF56 | Fixed arm, 5 9/16 in round | round | 5.5 | 5.625 | band | fixed | 10.5 | 10 | | | 10 | 40 | 72 | 330 | 76 | 315 | active
RF35-X | Fixed arm, 3 1/2 in round, first make | round | 3.4375 | 3.5625 | u-bolt | fixed | 10.5 | 10 | | | 8 | 24 | 48 | 120 | 39 | 162 | withdrawn
QL40-S | Lifting mount, steps of 6 in, 4 in square | square | 3.9375 | 4.0625 | through-bolt | stepped | 8.5 | 10 | 2.5 | 6 | 10 | 28 | 60 | 220 | 104 | 466 | active
QL40-C | Lifting mount with crank, 4 in square | square | 3.9375 | 4.0625 | band | continuous | 8.5 | 10 | 2.5 | | 10 | 30 | 60 | 220 | 116 | 628 | active
QF40 | Fixed arm, 4 in square | square | 3.9375 | 4.0625 | through-bolt | fixed | 10.5 | 10 | | | 8 | 32 | 60 | 220 | 49 | 224 | active
QF60 | Fixed arm, 6 in square | square | 5.9375 | 6.0625 | through-bolt | fixed | 10.5 | 10 | | | 12 | 48 | 72 | 340 | 92 | 388 | active
"""

# board, description, outline, width, height, mass, face, frame, ring pattern, price, status
BOARDS = """
B44-S | Steel board 44 in | rectangular | 44 | 32 | 58 | sheet steel | folded edge | H5x5 | 148 | active
B44-F | Aluminium fan 44 in | fan | 44 | 31 | 29 | cast aluminium | cast rib | H5x4 | 169 | active
B48-P | Polycarbonate board 48 in | rectangular | 48 | 32 | 47 | polycarbonate | steel tube | H5x5 | 205 | active
B48-A | Acrylic board 48 in | rectangular | 48 | 32 | 55 | acrylic | steel tube | H5x5 | 232 | active
B54-F | Aluminium fan 54 in | fan | 54 | 36 | 41 | cast aluminium | cast rib | H5x5 | 246 | active
B54-S | Perforated steel board 54 in | rectangular | 54 | 34 | 84 | perforated steel | angle | H5x5 | 259 | active
B54-A | Acrylic board 54 in | rectangular | 54 | 34 | 78 | acrylic | steel tube | H5x5 | 318 | active
B54-G | Glass board 54 in | rectangular | 54 | 34 | 122 | tempered glass | aluminium | H5x5 | 525 | active
B60-S | Perforated steel board 60 in | rectangular | 60 | 36 | 101 | perforated steel | angle | H5x5 | 322 | active
B60-A | Acrylic board 60 in | rectangular | 60 | 38 | 108 | acrylic | steel tube | H5x5 | 427.25 | active
B60-G | Glass board 60 in | rectangular | 60 | 38 | 158 | tempered glass | aluminium | H5x5 | 698 | active
B72-S | Perforated steel board 72 in | rectangular | 72 | 42 | 148 | perforated steel | angle | H5x5 | 455 | active
B72-A | Acrylic board 72 in | rectangular | 72 | 42 | 161 | acrylic | steel tube | H5x5 | 612 | active
B72-G | Glass board 72 in | rectangular | 72 | 42 | 218 | tempered glass | aluminium | H5x5 | 989 | active
B54-W | Plywood board 54 in | rectangular | 54 | 36 | 66 | plywood | none | H5x5 | 121 | withdrawn
"""

# ring, description, kind, ring pattern, mass, price, status
RINGS = """
R1 | Single ring | fixed | H5x5 | 12 | 46.5 | active
R2 | Double ring for hard play | fixed | H5x5 | 19 | 78 | active
R3 | Double ring, close holes | fixed | H5x4 | 18 | 74 | active
R5 | Breakaway ring | breakaway | H5x5 | 23 | 168 | active
R6 | Breakaway ring, glass boards | breakaway | H5x5 | 26 | 214.75 | active
R4 | Breakaway ring, first make | breakaway | H5x5 | 27 | 150 | withdrawn
"""

# extension, description, shape, least, most, joint, added, joint length, upper size, upper clear, bore least, bore most, rated, mass, price, status
EXTENSIONS = """
XS35-12 | Sleeve extension 12 in, 3 1/2 in round | round | 3.4375 | 3.5625 | sleeve | 12 | 12 | 3.5 | 11.5 | | | 5600 | 19 | 118 | active
XS35-24 | Sleeve extension 24 in, 3 1/2 in round | round | 3.4375 | 3.5625 | sleeve | 24 | 14 | 3.5 | 23.5 | | | 5600 | 31 | 162 | active
XP35-18 | Spigot extension 18 in, 3 1/2 in round | round | 3.4375 | 3.5625 | spigot | 18 | 16 | 3.5 | 17.5 | 2.875 | 3.09375 | 4800 | 24 | 109 | active
XS45-12 | Sleeve extension 12 in, 4 1/2 in round | round | 4.4375 | 4.5625 | sleeve | 12 | 14 | 4.5 | 11.5 | | | 9800 | 26 | 139 | active
XS45-24 | Sleeve extension 24 in, 4 1/2 in round | round | 4.4375 | 4.5625 | sleeve | 24 | 16 | 4.5 | 23.5 | | | 9800 | 43 | 188 | active
XP45-18 | Spigot extension 18 in, 4 1/2 in round | round | 4.4375 | 4.5625 | spigot | 18 | 18 | 4.5 | 17.5 | 3.96875 | 4.0625 | 8200 | 33 | 128 | active
XS56-24 | Sleeve extension 24 in, 5 9/16 in round | round | 5.5 | 5.625 | sleeve | 24 | 18 | 5.5625 | 23.5 | | | | 56 | 236 | active
XQ40-18 | Sleeve extension 18 in, 4 in square | square | 3.9375 | 4.0625 | sleeve | 18 | 14 | 4 | 17.5 | | | 7600 | 37 | 157 | active
XQ40-24 | Sleeve extension 24 in, 4 in square | square | 3.9375 | 4.0625 | sleeve | 24 | 14 | 4 | 23.5 | | | 7600 | 46 | 179 | active
XS35-18 | Sleeve extension 18 in, first make | round | 3.4375 | 3.5625 | sleeve | 18 | 8 | 3.5 | 17.5 | | | | 26 | 96 | withdrawn
"""

SERVICES = """
S-MOUNT | Mounting on the post, two people and a lift | per post | 335
S-JOIN | Joining an extension to the post | per extension | 95
S-STRIP | Taking old fittings off, touching up the paint | per stripped post | 80
S-VISIT | Visit, delivery of tools, clearing up | per site | 240
"""

BREAKS = """
RL45-S | 4 | 472
RL45-S | 10 | 448.5
B54-S | 4 | 244
B54-S | 12 | 229
R2 | 6 | 71.5
XS45-12 | 4 | 126
"""

FREIGHT = """
250 | 85
750 | 190
2000 | 410
 | 780
"""

# customer, discount, exempt, note, also known as, contact, address, ship to, payment terms, together, choice
CUSTOMERS = """
Northmere Schools | 12 | yes | order number needed before delivery | Northmere School District; NSD | Facilities office, R. Adair | 40 Larch Avenue, Northmere | Central stores, 7 Depot Road, Northmere | Net 45 days, against order number | yes | one board
City of Vesper Ford | 7.5 | yes | one invoice for all parks | Vesper Ford Parks | Parks office, L. Okafor | City Hall, 1 Ropewalk Square, Vesper Ford | | | yes | least price
Tern Bay Youth League | 5 | no | paid by the league, not by the ground | | J. Maren, grounds | PO Box 18, Tern Bay | Ferry Yard, Tern Bay | | no | most heights
Saltmarsh Hall Trust | 0 | no | | Saltmarsh Trust | | | | Half with the order, half on completion | | widest board
"""

SELLER = """
name | Fallow Court Supply
address | 12 Granary Wharf, Northmere
contact | Sales desk, M. Tolland
phone | 555 0142
email | desk@fallowcourt.example
tax number | 00-0000000
logo | logo.png
payment terms | Net 30 days from the date of invoice
delivery terms | Delivered to the address named; unloading by the customer
lead time | 6 weeks from the order
warranty | 5 years on mounts and boards, 2 years on rings, against faults of material and make
acceptance | Signed by a person who may order for the customer, this quotation is an order
closing | Thank you for asking us. Please call the sales desk with any question.
"""

POLICY = """
ring_height_wanted | 10 | ft | the dealer's usual height
wind_speed | 115 | mph | asked of the county in January
exposure | C | | open ground
footing_diameter | 18 | in | what was usual here
soil_class | 4 | | sand and silty gravel
tax_rate | 0.0725 | |
currency | USD | |
quote_valid_days | 45 | | prices hold until the next list
options_per_post | 8 | |
height_uncertainty_estimate | 3 | in | as far as a caretaker guesses
"""

FAMILIES = {
    "RL35-S": "B44-S B44-F B48-P B48-A B54-F B54-S B54-A B54-G",
    "RL35-C": "B44-S B44-F B48-P B48-A B54-F B54-S B54-A B54-G",
    "RL45-S": "B44-S B48-P B48-A B54-F B54-S B54-A B54-G B60-S B60-A B60-G",
    "RL45-C": "B48-P B48-A B54-F B54-S B54-A B54-G B60-S B60-A B60-G",
    "RL56-S": "B54-S B54-A B54-G B60-S B60-A B60-G B72-S B72-A B72-G",
    "RL56-C": "B54-S B54-A B54-G B60-S B60-A B60-G B72-S B72-A B72-G",
    "RF24": "B44-S B44-F",
    "RF35": "B44-S B44-F B48-P B54-F B54-S B54-A",
    "RF45": "B44-S B48-P B54-F B54-S B54-A B60-S B60-A",
    "RF56": "B54-S B54-A B60-S B60-A B72-S B72-A B72-G",
    "RF35-X": "B44-S B48-P",
    "QL40-S": "B44-S B48-P B48-A B54-F B54-S B54-A B54-G B60-S B60-A",
    "QL40-C": "B48-A B54-S B54-A B54-G B60-S B60-A B60-G",
    "QF40": "B44-S B48-P B54-F B54-S B54-A B60-S",
    "QF60": "B60-S B60-A B72-S B72-A B72-G",
}
"""Boards that may be sold with each mount."""

ROWS: dict[str, list[Row]] = {
    "Mounts": table(MOUNTS),
    "Boards": table(BOARDS),
    "Rings": table(RINGS),
    "Pairings": [[mount, board] for mount, boards in FAMILIES.items() for board in boards.split()],
    "Extensions": table(EXTENSIONS),
    "Services": table(SERVICES),
    "Price breaks": table(BREAKS),
    "Freight": table(FREIGHT),
    "Customers": table(CUSTOMERS),
    "Seller": table(SELLER),
    "Policy": table(POLICY),
}


def workbook() -> bytes:
    """The catalogue, one sheet a table, headings as the glossary has them."""
    sheets = []
    for t in (t for t in CATALOGUE if t.name in ROWS):
        head: Row = [c.titled for c in t.columns]
        wide = {n: 40.0 for n, c in enumerate(t.columns) if c.name in ("description", "note")}
        sheets.append(Sheet(t.name, [head, *ROWS[t.name]], widths={0: 26.0, **wide}))
    return xlsx(sheets)
