"""What the rows of the scenario are meant to show; the example's test holds the command to it."""

from __future__ import annotations

QUERIES = """
district/north_schools.xlsx | V21 | NM-CED S2 | ASKED | no | a mount for 3 1/2 in asked for on a 5 9/16 in post
district/north_schools.xlsx | W23 | NM-CED N3 | ASKED | no | a board that has been withdrawn
district/south_schools.xls | G5 | NM-DRY 2 | DATE_CELL | holds | 3-1/2 typed, a date made of it
district/south_schools.xls | J6 | NM-DRY 3 | DATE_CELL | holds | 8-6 typed, a date made of it
district/south_schools.xls | F7 | NM-ELM E4 | NOT_IN_LIST | holds | a shape that is no word of the list
district/south_schools.xls | G8 | NM-ELM E5 | MISSING | holds | the size was not taken
district/south_schools.xls | J9 | NM-ELM E6 | UNREADABLE | holds | about 8.5
district/south_schools.xls | Q10 | NM-ELM E7 | ASKED | no | a board narrower than the least width on the same row
district/east_schools.csv | H5 | NM-FEN P4 | NO_UNIT | holds | 8.5 and no unit anywhere
district/east_schools.csv | G6 | NM-FEN P5 | UNREADABLE | holds | an improper fraction
district/east_schools.csv | H7 | NM-FEN P6 | UNREADABLE | holds | a range
district/east_schools.csv | H9 | NM-FEN P8 | IMPLAUSIBLE | holds | 85 ft, a point forgotten
district/glen_park_annex.ods | G9 | NM-GLN G7 | IMPLAUSIBLE | holds | inches in a column of millimetres, on a hidden row
district/glen_park_annex.ods | G10 | NM-GLN G8 | IMPLAUSIBLE | holds | a circumference taken for a diameter
district/hawthorn_hill_form.xlsx | I7 | NM-HAW West 1 | CONFLICT | holds | a circumference of a square post
district/hawthorn_hill_form.xlsx | X8 | NM-HAW West 2 | ASKED | no | a mount's code that the catalogue does not have
district/hawthorn_hill_form.xlsx | K9 | NM-HAW West 3 | IMPLAUSIBLE | no | a wall of 2 in
district/gate_keys.xlsx | A1 | | NO_HEADINGS | no | a list of keys among the surveys
league/saltmarsh_hall.xlsx | S1 | | HEADING | no | a heading with a slip in it
league/saltmarsh_hall.xlsx | K3 | SM-1 Yard 2 | ERROR_CELL | holds | a formula that was never worked out
league/saltmarsh_hall.xlsx | F5 | SM-1 Yard 4 | UNREADABLE | holds | half a post
league/spring/courts.xlsx | D6 | TB-1 3 | DUPLICATE | no | the same post twice, saying the same in other words
league/autumn/recount.xlsx | D3 | TB-2 5 | DUPLICATE | holds | the same post twice, with another height
league/spring/courts.xlsx | D11 | TB-2 5 | DUPLICATE | holds | the other one of the two
county/clerk_list.xls | B16 | HARBOUR-VIEW-SCHOOL-4EA7 N | MISSING | holds | a mark for the same as above with nothing above it
county/clerk_list.xls | A13 | 6 | CONFLICT | holds | a lone text that may be a ground or a place in one
county/coach_two_a_row.csv | Q5 | KILN-FIELD-6015 N | CONFLICT | holds | two posts stated, one filled in
city/parks_town.tsv | J9 | VF-104 R4 | NOT_IN_LIST | no | a line that is no word of the list
city/parks_town.tsv | G10 | VF-104 R5 | CONFLICT | holds | DN 65 names two pipes
city/parks_town.tsv | N11 | VF-104 R6 | IMPLAUSIBLE | holds | a ring at 11 ft
city/riverside.xlsm | I6 | VF-105 L4 | CONFLICT | holds | a pipe's name, said to be an outside diameter
city/riverside.xlsm | J6 | VF-105 L4 | CONFLICT | holds | the other cell of the two
city/riverside.xlsm | M8 | VF-105 L6 | ERROR_CELL | holds | an error value
city/harbour.csv | M3 | VF-107 H2 | ASKED | no | a mount that fits, but no board for it is as wide as asked for
city/harbour.csv | C5 | VF-107 H4 | CONFLICT | holds | another customer than the site's other rows
city/old_scan.xlsx | | | UNREADABLE_FILE | no | a scan under a workbook's name
"""
"""Every query of the run: file, cell, site and post, code, whether it holds the row, what it shows."""

FITS = """
NM-ALD A1 | RL45-S | viable | | | nothing to confirm
NM-ALD A1 | QL40-S | not_viable | SHAPE;SIZE | | a square mount on a round post
NM-BRK 3 | RL35-S | not_viable | LINE | | a gooseneck
NM-BRK 4 | RL35-S | viable_confirm | | LINE;FITTINGS | tapered; nobody looked at the fittings
NM-BRK 5 | RL35-S | viable_confirm | | BASE | a base plate
NM-BRK 6 | RL35-S | not_viable | CLEAR | | 6 in of clear post where the clamps take 10
NM-BRK 7 | RL35-S | viable_extended | | | a foot short, made up by an extension
NM-BRK 8 | QL40-S | not_viable | LEAN | | 3 degrees
NM-CED N2 | QL40-S | viable_confirm | | LEAN | 1/4 in per ft
NM-DRY 6 | RL35-S | viable_confirm | | SIZE | just outside, within what a rule is good for
NM-DRY 7 | RL35-S | not_viable | BASE | | portable
NM-ELM E1 | QL40-S | not_viable | FITTINGS | | welded fittings
NM-ELM E3 | QL40-S | not_viable | CONDITION | | a crack
NM-GLN G2 | RL45-S | viable_confirm | | SIZE;CONDITION | an estimate of which only a part fits
NM-GLN G4 | RL45-S | viable_confirm | | CONDITION;HEIGHT | an estimated height that may be short
TB-2 4 | RL35-S | viable_extended | | CONDITION;JOINT | a spigot, and the wall not stated
TB-2 5 | | | | | held: no row
VF-107 H5 | RL45-S | not_viable | HEIGHT | CONDITION | too short for any extension
VF-107 H3 | RL35-S | not_viable | LINE | CONDITION | bent
CAUSEWAY-HIGH-SCHOOL-65A8 5 | RL45-S | not_viable | FITTINGS | | welded, in a row of dittos
OSIER-ROAD-SCHOOL-C837 2 | RL56-S | not_viable | LINE | | a gooseneck on a tab of its own
"""
"""Post, mount, verdict, failed and confirm codes as in data/mount_fit.csv, what it shows; no mount: not in the file."""

KITS = """
NM-ALD A1 | viable | | within | ready to be ordered
NM-BRK 1 | viable_confirm | STRENGTH;FOOTING | over | a standard wall under a board of 54 in
NM-CED S3 | viable_confirm | FOOTING | within | a footing of 30 in
VF-102 Q1 | viable_confirm | STRENGTH;FOOTING | over | both
NM-CED N2 | viable_confirm | LEAN | within | shim or straighten
VF-103 C3 | viable_confirm | FITTINGS;FOOTING | unknown | no wall is known
TB-3 1 | viable_extended | CONDITION;FOOTING | within | an extension of known strength
VF-105 L2 | viable_extended | FOOTING | unknown | an extension without a rated moment
BRIDGE-FOOT-PRIMARY-SCHOOL-88B2 N & S | viable_confirm | FOOTING | unknown | two posts named in one cell
FULLER-STREET-SCHOOL-DE9D S | viable_confirm | FOOTING | within | a post in a column, its size taken from the one to the left
TANNER-S-GREEN-D01D S | viable_confirm | FOOTING | within | the second of two posts on a row
WEIR-BANK-SCHOOL-F5FB 2 | viable_extended | FOOTING | within | a site named by its tab
"""
"""Post, and verdict, confirm codes and load state of its recommended kit as in data/kits.csv, what it shows."""

SITES = """
NM-ALD | ready
NM-IVY | ready
VF-101 | ready
NM-CED | to_confirm
TB-1 | to_confirm
TB-3 | to_confirm
VF-102 | to_confirm
VF-103 | to_confirm
VF-106 | to_confirm
FULLER-STREET-SCHOOL-DE9D | to_confirm
LONG-ACRE-CF21 | to_confirm
MILL-MEADOW-97FB | to_confirm
QUARRY-LANE-SCHOOL-CEC9 | to_confirm
TANNER-S-GREEN-D01D | to_confirm
WEIR-BANK-SCHOOL-F5FB | to_confirm
BRIDGE-FOOT-PRIMARY-SCHOOL-88B2 | incomplete
CAUSEWAY-HIGH-SCHOOL-65A8 | incomplete
HARBOUR-VIEW-SCHOOL-4EA7 | incomplete
KILN-FIELD-6015 | incomplete
OSIER-ROAD-SCHOOL-C837 | incomplete
NM-BRK | incomplete
NM-DRY | incomplete
NM-ELM | incomplete
NM-FEN | incomplete
NM-GLN | incomplete
NM-HAW | incomplete
SM-1 | incomplete
TB-2 | incomplete
VF-104 | incomplete
VF-105 | incomplete
VF-107 | incomplete
"""
"""State of every site."""


def rows(table: str) -> list[tuple[str, ...]]:
    """Rows of one of the tables above."""
    return [tuple(c.strip() for c in line.split("|")) for line in table.strip().splitlines()]
