"""The strength side of the screen: a row for each property, strength, share, depth and deflection."""

from __future__ import annotations

from collections.abc import Callable

from pipeline.loads import dead, deflection, flexure, footing, section, strength
from pipeline.loads.formulas import Formula, row
from pipeline.loads.load_arrays import Bools, Floats
from pipeline.loads.loading import CASES, worse


def _part(name: str) -> Callable[[section.Section], Floats]:
    def part(tube: section.Section) -> Floats:
        found: Floats = getattr(tube, name)
        return found

    return part


def bends(steel_or_unknown: Bools, extended: Bools) -> Bools:
    """The post alone bends under the hanging load (k,): steel or of unknown material, and without an extension.

    steel_or_unknown, extended: (k,). Range: any.
    Source: house rule.
    """
    return steel_or_unknown & ~extended


_ROUNDED = "of a tube with corner radii 2t and t"
_MOMENT = (
    "Mc = Mn/1.67, Mn by lambda: Fy Z; (0.021 E/lambda + Fy) S; 0.33 E/lambda S",
    "Mc = Mn/1.67, Mn by lambda: Fy Z; Mp - (Mp - Fy S)(3.57 lambda sqrt(Fy/E) - 4.0); Fy Se",
)
_TUBES = (section.round_tube, section.square_tube)
_SHARE = "P/(2 Pc) + B M_max/Mc, or P/Pc + 8/9 B M_max/Mc where P/Pc >= 0.2; infinite where B > 1.5: too slender for this screen"

SOIL: tuple[Formula, ...] = (
    row("b", "Width that bears on the soil", "m", "the footing's diameter; of a driven post its own, or its diagonal",
        footing.bearing_width, "square D driven footing", "D footing"),
    row("k", "Lateral bearing of the soil, by its class", "Pa/m", "per metre of depth", footing.soil_bearing, "soil_class"),
    *(row(f"z_0.{case}", f"Depth at which the soil has used up the shear, {case}", "m", "z_0 = sqrt(2 V/(k b))",
          strength.depth_of_no_shear, f"driven V.{case} b k", f"V.{case} b k", when="driven") for case in CASES),
    *(row(f"M_max.{case}", f"Greatest moment, {case}", "N m", "M_max = M; of a driven post, below the ground, M + 2/3 V z_0",
          strength.greatest_moment, f"M.{case} V.{case} z_0.{case}") for case in CASES),
)  # fmt: skip
"""What soil and a driven post make of the cases; no wall is read."""

TUBE: tuple[Formula, ...] = (
    row("t", "Design wall", "m", "t = factor x stated wall", section.design_wall, "wall factor", when="walled"),
    row("tube", "", "", "", section.section, "square D t"),
    row("A", "Area of the section", "m2", ("A = pi t (D - t)", _ROUNDED), _part("area"), "tube", "D t", _TUBES, "walled"),
    row("I", "Second moment of area", "m4", ("I = pi (D^4 - (D - 2t)^4)/64", _ROUNDED), _part("inertia"), "tube", "D t", _TUBES,
        "walled"),
    row("S", "Elastic section modulus", "m3", "S = 2 I/D", _part("elastic"), "tube", "I D", _TUBES, "walled"),
    row("Z", "Plastic section modulus", "m3", ("Z = (D^3 - (D - 2t)^3)/6", _ROUNDED), _part("plastic"), "tube", "D t", _TUBES,
        "walled"),
    row("lambda", "Slenderness of the wall", "", ("lambda = D/t", "lambda = (D - 3t)/t"), flexure.slenderness,
        "square D t", "D t", when="walled"),
    row("lambda_most", "Most slenderness that is looked at", "", ("lambda_most = 0.45 E/Fy", "lambda_most = 5.70 sqrt(E/Fy)"),
        flexure.slenderness_most, "square Fy E", "E Fy", when="walled"),
    row("Mc", "Bending strength", "N m", _MOMENT, flexure.bending_strength, "square D t tube lambda Fy E", "Fy E S Z lambda",
        (flexure.round_moment, flexure.square_moment), "walled"),
    row("Kh_c/r", "Slenderness of the post", "", "K h_c/r with K = 2.1, r = sqrt(I/A)", strength.column_slenderness, "h_c I A",
        when="walled"),
    row("Fcr", "Buckling stress", "Pa", "Fcr = 0.658^(Fy/Fe) Fy up to Fy/Fe = 2.25, else 0.877 Fe; Fe = pi^2 E/(K h_c/r)^2",
        strength.compression_stress, "Kh_c/r Fy E", when="walled"),
    row("Pc", "Compression strength", "N", "Pc = Fcr A/1.67", strength.compression_strength, "Fcr A", when="walled"),
    row("Pe", "Elastic buckling load", "N", "Pe = pi^2 E I/(2.1 h_c)^2", strength.euler_load, "I h_c E", when="walled"),
    row("m_own", "Mass of the post's own steel", "kg", "m_own = 7850 A H", deflection.own_mass, "A H", when="walled"),
    row("own", "Weight of the post's own steel", "N", "own = g m_own", dead.weight, "m_own", when="walled"),
)  # fmt: skip
"""What the tube carries; all that changes with the wall."""


def _shares(case: str, carried: str) -> tuple[Formula, ...]:
    return (
        row(f"P.{case}", f"Axial load, {case}", "N", f"P = {carried} + own", strength.axial_load,
            f"{carried} own", when="known"),
        row(f"B.{case}", f"Second-order multiplier, {case}", "", "B = 1/(1 - 1.6 P/Pe)", strength.second_order, f"P.{case} Pe",
            when="known"),
        row(f"U.{case}", f"Share of the post's strength, {case}", "of strength", _SHARE, strength.post_utilisation,
            f"P.{case} Pc B.{case} M_max.{case} Mc", sources=(strength.combined,), when="known"),
    )  # fmt: skip


def _joint(case: str) -> tuple[Formula, ...]:
    return (
        row(f"U_J.{case}", f"Share of the joint's rated moment, {case}", "of strength", "U_J = M_J/rated",
            strength.joint_utilisation, f"M_J.{case} extended rated", f"M_J.{case} rated", when="jointed"),
        row(f"share.{case}", f"Greater of post and joint, {case}", "of strength", "the greater", worse,
            f"U.{case} U_J.{case}", when="jointed"),
    )  # fmt: skip


CARRIED = {"hang": "W_L", "push": "W", "storm": "W"}

SHARES: tuple[Formula, ...] = tuple(r for case, carried in CARRIED.items() for r in _shares(case, carried))
"""Share of the post's strength in each case."""

JOINTS: tuple[Formula, ...] = tuple(r for case in CASES for r in _joint(case))

_CUBIC = "d^3 - (7.02 V/(k b)) d - 7.6518 M/(k b) = 0; beyond 12 ft as printed"

GROUND: tuple[Formula, ...] = (
    row("k_s", "Lateral bearing under loads that do not last", "Pa/m", "k_s = k x short_term", footing.short_term, "k short_term",
        when="embedded"),
    *(row(f"d.{case}", f"Depth of footing, {case}", "m", _CUBIC.replace("k b", "k_s b"), footing.depth,
          f"V.{case} M.{case} b k_s", when="embedded") for case in CASES),
    row("d.perm", "Depth of footing, permanent loads alone", "m", _CUBIC, footing.lasting_depth, "M_perm b k", when="embedded"),
    row("depth", "Depth of footing needed", "m", "the deepest; none on a base plate", footing.depth_needed,
        "base_plate d.hang d.push d.storm d.perm", "stated d.hang d.push d.storm d.perm"),
)  # fmt: skip

MOVING: tuple[Formula, ...] = (
    row("bends", "", "", "", bends, "steel_or_unknown extended"),
    row("deflection", "Ring deflection under the hanging load", "m", "F_L e_b e_r L/(E I); not with an extension",
        deflection.ring_deflection, "F_L e_b e_r L I E bends", "F_L e_b e_r L E I"),
    row("f", "Natural frequency with the kit", "Hz", "f = sqrt(3 E I/(h_c^3 (m + 0.24 m_own)))/(2 pi)",
        deflection.natural_frequency, "I h_c m m_own E steel_or_unknown", "E I h_c m m_own", when="walled"),
)  # fmt: skip
"""What moves: how far the ring goes down, how stiffly the post stands."""
