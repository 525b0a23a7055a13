"""Rules and sources in the words of a reader: the fixed text of the sheet `Basis`."""

# ruff: noqa: E501 (tables: a row a line)

from __future__ import annotations

RULES: tuple[tuple[str, str, str, str, str], ...] = (
    ("SHAPE", "post and mount of one shape", "", "shapes differ, or neither round nor square", "common practice"),
    ("SIZE", "outside size within the mount's window", "outside by no more than the size's bound; or an estimate that only partly fits", "outside by more", "common practice"),
    ("LINE", "straight", "unknown or tapered", "gooseneck or bent", "common practice"),
    ("LEAN", "ring level across its 0.450 m within ring_level_tolerance", "up to lean_limit: shim or straighten", "beyond lean_limit", "FIBA (ring); house default"),
    ("FITTINGS", "none, or removable (stripping is charged)", "unknown", "fixed", "common practice"),
    ("CONDITION", "sound, surface rust, or unknown (said)", "", "corroded, cracked or loose", "common practice"),
    ("BASE", "cast in, ground sleeve, driven, or unknown (said)", "base plate: anchors are for an engineer", "portable", "common practice"),
    ("CLEAR", "clamps lie within the straight clear length", "", "clamps need more", "geometry"),
    ("HEIGHT", "greatest ring height reaches the target within ring_height_tolerance", "short by no more than the height's bound; or an estimate that only partly reaches", "short by more: an extension is needed", "geometry; FIBA and NFHS (ring height)"),
    ("JOINT", "no extension, a sleeve, or a spigot that enters the bore", "a spigot, and the wall is not stated", "that extension is not offered", "geometry"),
    ("BOARD", "no wider and no heavier than the mount allows, no narrower than asked for", "", "wider, heavier or narrower", "catalogue"),
    ("STRENGTH", "rough load within rough strength, or strength not known", "over: only a licensed engineer can clear it", "", "AISC 360-16; ASCE 7-16; EN 1270 (memory)"),
    ("FOOTING", "no depth is stated, or it is enough", "the stated depth is less than the formula asks for", "", "IBC 1807.3.2.1"),
)  # fmt: skip
"""Code, pass, confirm, fail, source: contract and design section 4 in the words of a reader."""

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
