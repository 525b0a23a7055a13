"""One small world of corner cases, each typed as it stands here: what random worlds meet too rarely."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

from openpyxl import Workbook
from oracle.model import Board, Catalogue, Customer, Extension, Mount, Post, Ring, Service

from .catalogues import Made
from .units import feet, inches, lb, mm

Typed = dict[str, Any]
"""Cells of a row as typed, by heading."""

PLAIN: Typed = {
    "Site code": "A", "Site name": "Corner ground", "Post shape": "round", "Post size": "3.5 in", "Height above ground": "8.5 ft",
    "Post line": "straight", "Old fittings": "none", "Customer": "nobody in the list",
}  # fmt: skip


def row(code: str, post: dict[str, Any], **typed: Any) -> tuple[Post, Typed]:
    """A post as the oracle reads it, and the cells as a person types them (`_` for a space)."""
    cells = PLAIN | {"Post": code} | {name.replace("_", " "): value for name, value in typed.items()}
    plain = Post("A", code, size=inches("3.5"), height=feet("8.5"), site_name="Corner ground", customer="nobody in the list")
    return replace(plain, **post), cells


ROWS = (
    # ranges of design section 3 are inclusive, in any unit
    row("P1", {"height": Fraction(6)}, Height_above_ground="6000 mm"),
    row("P2", {"height": mm(1500)}, Height_above_ground="1.5 m"),
    row("P3", {"size": mm(40)}, Post_size="4 cm"),
    row("P4", {"size": mm(350)}, Post_size="0.35 m"),
    row("P5", {"clear": feet("8.5")}, Clear_straight_length='102"'),
    row("P6", {"wall": inches("0.7"), "material": "steel"}, Wall_thickness="17.78 mm", Post_material="steel"),
    row("P7", {"wall": mm(1), "material": "steel"}, Wall_thickness="1 mm", Post_material="steel"),
    row("P8", {"wanted": (mm(3100), mm(1800))}, Ring_heights_wanted="3.1 m; 1.8 m"),
    row("P9", {"quantity": 500}, Identical_posts=500),
    row("P10", {"wind": Fraction(110)}, Wind_speed="110 m/s"),
    row("P11", {"wind": Fraction(15), "exposure": "B"}, Wind_speed="15 m/s", Exposure="B"),
    row("P12", {"lean": 0.3490658503988659}, Lean="20 deg"),
    row("P13", {"rise": Fraction(1)}, Court_above_ground="1 m"),
    row("P14", {"rise": Fraction(-1)}, Court_above_ground="-1000 mm"),
    # a stated nought is a second measurement; a blank is not (tolerance 6, tape 6, court 6 mm)
    row(
        "P15", {"rise": Fraction(0), "height": feet("8.5") - mm(15)},
        Court_above_ground="0 in", Height_above_ground="2575.8 mm",
    ),
    row("P16", {"height": feet("8.5") - mm(15)}, Height_above_ground="2575.8 mm"),
    # ways to state a size
    row("P17", {"basis": "nominal pipe size", "size": mm("88.9")}, Post_size="DN 80"),
    row("P18", {"basis": "nominal pipe size", "size": mm("101.6")}, Post_size="DN 90"),
    row(
        "P19", {"basis": "nominal pipe size", "size": inches("3.5"), "measured": "estimate"},
        Post_size="NPS 3", Measured_with="estimate",
    ),
    row(
        "P20", {"basis": "nominal pipe size", "size": inches("3.5"), "measured": "calipers"},
        Post_size="NPS 3", Measured_with="calipers",
    ),
    row(
        "P21", {"basis": "nominal pipe size", "size": mm("88.9"), "wall": mm("5.49")},
        Post_size="3 in sch 40", Size_is="nominal pipe size",
    ),
    row(
        "P22", {"basis": "nominal pipe size", "size": inches("3.5"), "wall": mm(4), "material": "steel"},
        Post_size="NPS 3 sch 80", Wall_thickness="4 mm", Post_material="steel",
    ),
    row("P23", {"basis": "nominal pipe size", "size": inches("3.5")}, Post_size=3, Size_is="nominal pipe size"),
    # items asked for in another case; a withdrawn one; one that cannot serve
    row("P24", {"mount_asked": "L9", "board_asked": "B2"}, Mount_asked_for="l9", Board_asked_for="b2"),
    row("P25", {"mount_asked": "OLD"}, Mount_asked_for="old"),
    row("P26", {"mount_asked": "SQ", "ring_asked": "R2"}, Mount_asked_for="SQ", Ring_asked_for="R2"),
    # a driven post's footing is the post; square across the diagonal
    row(
        "P27", {"base": "driven", "footing_diameter": mm(450), "footing_depth": mm(900)},
        Post_base="driven", Footing_diameter="450 mm", Footing_depth="0.9 m",
    ),
    row(
        "P28", {"base": "driven", "shape": "square", "size": inches(4)},
        Post_base="driven", Post_shape="square", Post_size="4 in",
    ),
    row("P29", {"base": "base plate", "footing_depth": mm(200)}, Post_base="base plate", Footing_depth="200 mm"),
    # footing below 12 ft; post too slender for the screen; lean and an extension
    row("P30", {"soil": 5, "footing_diameter": mm(150)}, Soil_class=5, Footing_diameter="150 mm"),
    row(
        "P31", {"wall": mm(1), "size": mm(350), "material": "steel", "height": feet("8.5")},
        Wall_thickness="1 mm", Post_size="350 mm", Post_material="steel",
    ),
    row(
        "P32", {"height": feet("7.5"), "lean": 0.02, "wall": mm(6), "material": "steel"},
        Height_above_ground="7.5 ft", Lean="1.1459155902616465 deg", Wall_thickness="6 mm", Post_material="steel",
    ),
    row(
        "P33", {"height": feet("7.5"), "wall": mm(6), "fittings": "removable", "quantity": 3, "material": "steel"},
        Height_above_ground="7' 6\"", Wall_thickness="6 mm", Old_fittings="removable", Identical_posts="3", Post_material="steel",
    ),
    row("P34", {"least_width": mm(500)}, Least_board_width="500 mm"),
    row("P35", {"least_width": mm(2500)}, Least_board_width="2.5 m"),
    row("P36", {"wall": mm(3), "material": "aluminium"}, Wall_thickness="3 mm", Post_material="aluminium"),
    row("P37", {"wall": mm(3), "material": "unknown"}, Wall_thickness="3 mm", Post_material="unknown"),
)  # fmt: skip


def lifting(code: str, **more: Any) -> Mount:
    plain = Mount(
        code, "round", inches("3.5"), inches("3.5"), "stepped", feet("8.5"), feet(10), inches(18), inches(6), clamp=inches(18),
        overhang=inches(24), width_most=inches(72), mass_most=lb(90), mass=lb(30), price=Decimal("199.995"),
    )  # fmt: skip
    return replace(plain, **more)


def made() -> Made:
    """Equal prices and codes whose plain order is not the natural one; standing and withdrawn items; wide windows."""
    mounts = (
        lifting("L9"), lifting("L10"), lifting("Lc", most=mm(350), least=mm(40), adjustment="continuous",
        step=Fraction(0), travel=feet(2)),
        lifting("FX", adjustment="fixed", travel=Fraction(0), step=Fraction(0), least=mm(40), most=mm(350), needed=feet("10.5")),
        lifting("SQ", shape="square", least=inches(4), most=inches(4)), lifting("OLD", active=False),
    )  # fmt: skip
    boards = (
        Board("B1", "fan", inches(54), inches(35), lb(60), "A", Decimal(150)),
        Board("B2", "rectangular", inches(72), inches(42), lb(66), "A", Decimal(150)),
        Board("B3", "rectangular", inches(72), inches(42), lb(50), "A", Decimal(90), active=False),
    )
    rings = (Ring("R1", "fixed", "A", lb(24), Decimal("49.995")), Ring("R2", "breakaway", "A", lb(30), Decimal("49.995")))
    sleeve = Extension(
        "X2", "round", inches(3), inches(4), "sleeve", inches(12), inches(14), inches("3.5"), inches(30), None, None,
        Fraction(6000), lb(15), Decimal(80),
    )  # fmt: skip
    twin, dearer = replace(sleeve, code="X10"), replace(sleeve, code="X0", price=Decimal(81))
    spigot = replace(sleeve, code="X1", joint="spigot", bore_least=mm("76.9"), bore_most=mm(77))
    services = (Service("FIT", "per post", Decimal("80.005")), Service("TRIP", "per site", Decimal(120)))
    pairs = tuple((m.code, b.code) for m in mounts for b in boards)
    catalogue = Catalogue(
        mounts, boards, rings, pairs,
        (dearer, sleeve, twin, spigot), services, freight=((None, Decimal(1200)),),
        customers=(Customer("Somebody else", Decimal(50), True),), policy={"currency": "KWD", "tax_rate": Decimal("0.125")},
    )  # fmt: skip
    return Made(catalogue, (("currency", "KWD", ""), ("tax_rate", 0.125, "")))


def posts() -> tuple[Post, ...]:
    return tuple(post for post, _ in ROWS)


def write_survey(path: Path) -> None:
    """Headings without units: every cell carries its own."""
    headings = list(dict.fromkeys(name for _, cells in ROWS for name in cells))
    book = Workbook()
    book.active.append(headings)
    for _, cells in ROWS:
        book.active.append([cells.get(name) for name in headings])
    book.save(path)
