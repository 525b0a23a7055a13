"""Formulas, constants and their sources in the words of a reader: fixed text of the sheet `Basis`."""

# ruff: noqa: E501 (tables: a row a line)

from __future__ import annotations

SOURCES: tuple[tuple[str, str], ...] = (
    ("Ring height", "Lift is 'For ring height' less 'Post height needed'; greatest ring height is post height less court level plus lift. Geometry; ring 10 ft (3.05 m): FIBA rules, NFHS rule 1."),
    ("Ring and board", "Ring 0.450 m across, 0.151 m off the board, 0.150 m above the board's lower edge: FIBA Basketball Equipment (memory)."),
    ("Pipe sizes", "ASME B36.10M; DN names: ISO 6708, EN 10255."),
    ("Hanging load", "EN 1270, vertical test load (memory)."),
    ("Push load", "GOST R 56434-2015, appendix G, outdoor equipment."),
    ("Wind", "ASCE 7-16, chapters 26 and 29; 0.6 W of allowable stress design, 2.4."),
    ("Strength", "AISC 360-16, chapters E, F, H and appendix 8; design wall B4.2."),
    ("Square sections", "Outer corner radius twice the wall (AISC Manual part 1). For EN 10219-2 sections above 6 mm, whose radii are larger, this is 2 to 17 % on the unsafe side."),
    ("Footing", "IBC 1807.3.2.1, not constrained; lateral bearing of table 1806.2."),
    ("Whole", "No published standard certifies a new board on somebody else's old post. EN 1270 and EN 15312 cover complete equipment."),
)  # fmt: skip
