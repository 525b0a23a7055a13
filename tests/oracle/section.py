"""Steel post at the ground line: AISC 360-16 ASD as the design cites it, in plain scalars."""

from __future__ import annotations

import math
from dataclasses import dataclass

OMEGA = 1.67
K_FACTOR = 2.1


@dataclass(frozen=True)
class Section:
    """Area [m2], second moment [m4], elastic and plastic modulus [m3], size and design wall [m]."""

    shape: str
    size: float
    wall: float
    area: float
    inertia: float
    elastic: float
    plastic: float


def round_section(size: float, wall: float) -> Section:
    bore = size - 2 * wall
    area = math.pi / 4 * (size**2 - bore**2)
    inertia = math.pi / 64 * (size**4 - bore**4)
    return Section("round", size, wall, area, inertia, inertia / (size / 2), (size**3 - bore**3) / 6)


def corner(radius: float, half: float) -> tuple[float, float, float]:
    """Area, own second moment and distance from the axis of one corner's lost piece.

    Source: EN 10219-2, annex B (memory), whose formulas are geometry.
    """
    area = (1 - math.pi / 4) * radius**2
    own = (1 / 3 - math.pi / 16 - 1 / (3 * (12 - 3 * math.pi))) * radius**4
    return area, own, half - (10 - 3 * math.pi) / (12 - 3 * math.pi) * radius


def square_section(size: float, wall: float) -> Section:
    """Outer corner radius 2t, inner t."""
    bore = size - 2 * wall
    area_out, own_out, arm_out = corner(2 * wall, size / 2)
    area_in, own_in, arm_in = corner(wall, bore / 2)
    area = size**2 - bore**2 - 4 * area_out + 4 * area_in
    inertia = (size**4 - bore**4) / 12 - 4 * (own_out + area_out * arm_out**2) + 4 * (own_in + area_in * arm_in**2)
    plastic = (size**3 - bore**3) / 4 - 4 * area_out * arm_out + 4 * area_in * arm_in
    return Section("square", size, wall, area, inertia, inertia / (size / 2), plastic)


def section(shape: str, size: float, wall: float) -> Section:
    return round_section(size, wall) if shape == "round" else square_section(size, wall)


def slenderness(s: Section) -> float:
    """D/t of a round, (D - 3t)/t of a square section."""
    return s.size / s.wall if s.shape == "round" else (s.size - 3 * s.wall) / s.wall


def beyond_screen(s: Section, fy: float, e: float) -> bool:
    """Walls too slender for F8, or for the square's limit that the design sets."""
    return slenderness(s) > (0.45 * e / fy if s.shape == "round" else 5.70 * math.sqrt(e / fy))


def round_flexure(s: Section, fy: float, e: float) -> float:
    lam = slenderness(s)
    plastic = fy * s.plastic
    if lam <= 0.07 * e / fy:
        return plastic
    if lam <= 0.31 * e / fy:
        return min(plastic, (0.021 * e / lam + fy) * s.elastic)
    return min(plastic, 0.33 * e / lam * s.elastic)


def effective_modulus(s: Section, fy: float, e: float) -> float:
    """Se of a slender square: the strip that is lost is taken off both flanges."""
    root = math.sqrt(e / fy)
    flat = s.size - 3 * s.wall
    kept = min(flat, 1.92 * s.wall * root * (1 - 0.38 / slenderness(s) * root))
    lost = flat - kept
    strip = lost * s.wall * ((s.size - s.wall) / 2) ** 2 + lost * s.wall**3 / 12
    return (s.inertia - 2 * strip) / (s.size / 2)


def square_flexure(s: Section, fy: float, e: float) -> float:
    lam, root = slenderness(s), math.sqrt(e / fy)
    plastic = fy * s.plastic
    if lam <= 1.12 * root:
        return plastic
    if lam <= 1.40 * root:
        return min(plastic, plastic - (plastic - fy * s.elastic) * (3.57 * lam / root - 4.0))
    return fy * effective_modulus(s, fy, e)


def flexure(s: Section, fy: float, e: float) -> float:
    """Nominal moment Mn [N m]: F8 round, F7 square."""
    return round_flexure(s, fy, e) if s.shape == "round" else square_flexure(s, fy, e)


def compression(s: Section, fy: float, e: float, effective: float) -> float:
    """Nominal axial strength Pn [N] at an effective length [m]: E3."""
    euler = math.pi**2 * e / (effective / math.sqrt(s.inertia / s.area)) ** 2
    stress = 0.658 ** (fy / euler) * fy if fy / euler <= 2.25 else 0.877 * euler
    return stress * s.area


def utilisation(s: Section, fy: float, e: float, height: float, axial: float, moment: float) -> float:
    """H1 with the second-order moment, the load at its own height; infinite where the amplification is above 1.5."""
    effective = K_FACTOR * height
    euler = math.pi**2 * e * s.inertia / effective**2
    if 1.6 * axial >= euler:
        return math.inf
    factor = 1 / (1 - 1.6 * axial / euler)
    if factor > 1.5:
        return math.inf
    p = axial / (compression(s, fy, e, effective) / OMEGA)
    m = factor * moment / (flexure(s, fy, e) / OMEGA)
    return p + 8 / 9 * m if p >= 0.2 else p / 2 + m
