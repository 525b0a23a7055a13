"""Made-up catalogues: mounts of every kind, boards, rings, extensions, prices and policies."""

from __future__ import annotations

import random
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any

from oracle.model import Board, Catalogue, Customer, Extension, Mount, Ring, Service

from .units import MPH, feet, inches, lb, mm

ROUND = [
    ("2.375", "2.875"),
    ("2.875", "3.5"),
    ("3.5", "3.5"),
    ("3.375", "3.625"),
    ("3.5", "4.5"),
    ("4", "4"),
    ("4", "5.5625"),
    ("4.5", "6.625"),
]
SQUARE = [("3", "4"), ("4", "4"), ("3.9375", "4.0625"), ("5", "6"), ("4", "6")]
REACHES = [("8.5", "10"), ("10.5", "10"), ("8", "10"), ("9", "10"), ("9.5", "9.5"), ("7.75", "10"), ("8.5", "9")]
SETTINGS = [
    ("fixed", "0", "0"), ("stepped", "2.5", "6"), ("stepped", "2", "5"), ("stepped", "1.5", "6"), ("stepped", "2.5", "4"),
    ("continuous", "2.5", "0"), ("continuous", "3", "0"), ("continuous", "1", "0"),
]  # fmt: skip
NAMES = ("Eastvale Parks Office", "Marrow Hill District", "Quarry Lane League", "Tern Bay Schools")

CHOICES = ("least price", "widest board", "most heights", "one board")

PolicyRow = tuple[str, Any, str]


@dataclass(frozen=True)
class Made:
    """A catalogue and the rows of its `Policy` sheet, as typed."""

    catalogue: Catalogue
    policy_rows: tuple[PolicyRow, ...]


def price(rng: random.Random, low: int, high: int, whole: bool = False) -> Decimal:
    cents = rng.randrange(low * 100, high * 100)
    return Decimal(round(cents, -2) // 100) if whole else Decimal(cents) / 100


def make_mounts(rng: random.Random, count: int, prices: tuple[Decimal, ...]) -> tuple[Mount, ...]:
    out = []
    for n in range(count):
        shape = "square" if n % 3 == 2 else "round"
        least, most = (
            (SQUARE if shape == "square" else ROUND)[n // 2 % 5] if n < 10 else rng.choice(SQUARE if shape == "square" else ROUND)
        )
        needed, ring = REACHES[n % len(REACHES)] if n < len(REACHES) else rng.choice(REACHES)
        adjustment, travel, step = SETTINGS[n % len(SETTINGS)]
        out.append(
            Mount(
                f"M-{n + 1:02d}", shape, inches(least), inches(most), adjustment,
                feet(needed), feet(ring), feet(travel), inches(step),
                clamp=inches(rng.choice((8, 12, 18, 20, 24, 36))),
                overhang=inches(rng.choice((12, 18, 24, 30, 36, 48))),
                width_most=inches(rng.choice((48, 54, 60, 72))),
                mass_most=lb(rng.choice((60, 70, 90, 120, 160))),
                mass=lb(rng.choice((24, 30, 41, 55, 68))),
                price=rng.choice(prices),
                fastening=rng.choice(("u-bolt", "band", "through-bolt")),
                active=n % 11 != 10,
            )
        )  # fmt: skip
    return tuple(out)


def make_boards(rng: random.Random, count: int, prices: tuple[Decimal, ...]) -> tuple[Board, ...]:
    sizes = ((44, 29), (48, 32), (54, 35), (54, 39), (60, 42), (72, 42), (46, 33))
    out = []
    for n in range(count):
        width, height = sizes[n % len(sizes)]
        out.append(
            Board(
                f"B-{n + 1:02d}", ("rectangular", "fan")[n % 2], inches(width), inches(height),
                lb(rng.choice((36, 46, 50, 62, 76, 96, 106))),
                "AB"[n % 2], rng.choice(prices), active=n % 9 != 8,
            )
        )  # fmt: skip
    return tuple(out)


def make_rings(rng: random.Random, prices: tuple[Decimal, ...]) -> tuple[Ring, ...]:
    return (
        Ring("R-01", "fixed", "A", lb(14), rng.choice(prices)),
        Ring("R-02", "breakaway", "A", lb(24), rng.choice(prices)),
        Ring("R-03", "fixed", "B", lb(10), rng.choice(prices)),
        Ring("R-04", "breakaway", "B", lb(20), rng.choice(prices), active=False),
    )


def make_extensions(
    rng: random.Random, mounts: tuple[Mount, ...], count: int, prices: tuple[Decimal, ...]
) -> tuple[Extension, ...]:
    """Aimed at the mounts' windows; equal added heights, and some equal prices, are wanted."""
    out = []
    for n in range(count):
        mount = mounts[rng.randrange(len(mounts))]
        upper = rng.choice((mount.least, mount.most, (mount.least + mount.most) / 2))
        spread = inches(rng.choice(("0", "1/2", "1")))
        joint = ("sleeve", "spigot")[n % 2]
        bore = mount.least - inches("0.43")
        out.append(
            Extension(
                f"X-{n + 1:02d}", mount.shape, mount.least - spread, mount.most + spread, joint,
                added=inches(rng.choice((6, 12, 12, 18, 24, 24, 30, 36))),
                joint_length=inches(rng.choice((12, 16, 24))),
                upper=upper,
                upper_clear=inches(rng.choice((18, 24, 30, 42, 60))),
                bore_least=bore - inches("1/8") if joint == "spigot" else None,
                bore_most=bore + inches("1/8") + (mount.most - mount.least) if joint == "spigot" else None,
                rated=Fraction(rng.choice((4500, 6000, 9000))) if rng.random() < 0.7 else None,
                mass=lb(rng.choice((12, 17, 22))),
                price=rng.choice(prices),
                active=n % 8 != 7,
            )
        )  # fmt: skip
    return tuple(out)


def make_policy(n: int) -> tuple[dict[str, Any], tuple[PolicyRow, ...]]:
    """Settings in SI for the oracle, and as typed for the sheet."""
    variants: list[dict[str, tuple[Any, Any, str]]] = [
        {"soil_class": (4, 4, "")},
        {
            "ring_height_tolerance": (inches("1/4"), 0.25, "in"),
            "ring_height_wanted": ((feet(10), feet("8.5")), "10; 8.5", "ft"),
            "size_uncertainty_rule": (mm(2), 2, "mm"),
            "lean_limit": (0.026179938779914945, 1.5, "deg"),
            "steel_yield": (235e6, 235, "MPa"),
            "exposure": ("B", "B", ""),
            "currency": ("EUR", "EUR", ""),
            "tax_rate": (Decimal("0.0625"), 0.0625, ""),
        },
        {
            "ring_height_wanted": ((mm(3050),), 3.05, "m"),
            "size_uncertainty_pipe_mark": (Fraction(3, 200), 1.5, "%"),
            "height_uncertainty_tape": (inches("1/2"), 0.5, "in"),
            "size_uncertainty_estimate": (inches("1/4"), 0.25, "in"),
            "wind_speed": (120 * MPH, 120, "mph"),
            "least_wind_pressure": (Fraction(500), 0.5, "kPa"),
            "soil_class": (3, 3, ""),
            "quote_valid_days": (45, 45, ""),
            "tax_rate": (Decimal("0.0725"), 0.0725, ""),
        },
        {
            "ring_level_tolerance": (mm(8), 8, "mm"),
            "ring_height_tolerance": (mm(10), 1, "cm"),
            "court_rise_uncertainty": (mm(10), 10, "mm"),
            "height_uncertainty_estimate": (inches(2), 2, "in"),
            "play_load": (Fraction(2500), 2.5, "kN"),
            "push_load": (Fraction(1200), 1200, "N"),
            "board_drag": (1.7, 1.7, ""),
            "design_wall_factor": (0.9, 0.9, ""),
            "footing_diameter": (inches(16), 16, "in"),
            "play_wind_speed": (Fraction(12), 12, "m/s"),
            "currency": ("JPY", "JPY", ""),
            "tax_rate": (Decimal("0.1"), 0.1, ""),
        },
    ]
    chosen = variants[n % len(variants)]
    return {k: v[0] for k, v in chosen.items()}, tuple((k, v[1], v[2]) for k, v in chosen.items())


def make_catalogue(rng: random.Random, n: int, mounts: int = 12, boards: int = 8, extensions: int = 12) -> Made:
    """Catalogue number `n`; price breaks and freight come later, when quantities and masses are known."""
    policy, rows = make_policy(n)
    whole = policy.get("currency") == "JPY"
    prices = tuple(price(rng, 60, 900, whole) for _ in range(5))
    made = make_mounts(rng, mounts, prices)
    panels = make_boards(rng, boards, prices)
    pairs = tuple((m.code, b.code) for m in made for b in panels if rng.random() < 0.5)
    services = (
        Service("S-01", "per post", price(rng, 40, 200, whole)),
        Service("S-02", "per extension", price(rng, 40, 200, whole)),
        Service("S-03", "per stripped post", price(rng, 20, 90, whole)),
        Service("S-04", "per site", price(rng, 100, 400, whole)),
        Service("S-05", "per post", price(rng, 5, 20, whole)),
    )
    wants = [CHOICES[(n + i) % len(CHOICES)] for i in range(len(NAMES))]
    customers = (
        Customer(NAMES[0], Decimal("12.5"), False, together=n % 2 == 1, choice=wants[0]),
        Customer(NAMES[1], Decimal(5), True, together=n % 4 != 3, choice=wants[1]),
        Customer(NAMES[2], Decimal("7.25"), False, together=n % 2 == 0, choice=wants[2]),
        *((Customer("Tern Bay Unified", Decimal(0), True, (NAMES[3], "TBU"), n % 4 == 3, wants[3]),) if n % 2 else ()),
    )
    bounds = (lb(300), lb(1200), None)
    catalogue = Catalogue(
        made, panels, make_rings(rng, prices), pairs, make_extensions(rng, made, extensions, prices), services,
        freight=tuple((bound, price(rng, 80, 900, whole)) for bound in bounds),
        customers=customers, policy=policy,
    )  # fmt: skip
    return Made(catalogue, rows)
