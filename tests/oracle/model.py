"""What the oracle reads: catalogue items and posts in SI, numbers as floats or exact fractions."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import Any

Number = float | Fraction


@dataclass(frozen=True)
class Mount:
    """A row of `Mounts`; lengths in m, masses in kg."""

    code: str
    shape: str
    least: Number
    most: Number
    adjustment: str
    needed: Number
    for_ring: Number
    travel: Number
    step: Number
    clamp: Number
    overhang: Number
    width_most: Number
    mass_most: Number
    mass: Number
    price: Decimal
    fastening: str = "band"
    active: bool = True


@dataclass(frozen=True)
class Board:
    """A row of `Boards`."""

    code: str
    outline: str
    width: Number
    height: Number
    mass: Number
    pattern: str
    price: Decimal
    active: bool = True


@dataclass(frozen=True)
class Ring:
    """A row of `Rings`."""

    code: str
    kind: str
    pattern: str
    mass: Number
    price: Decimal
    active: bool = True


@dataclass(frozen=True)
class Extension:
    """A row of `Extensions`; rated moment in N m, None where it is not known."""

    code: str
    shape: str
    least: Number
    most: Number
    joint: str
    added: Number
    joint_length: Number
    upper: Number
    upper_clear: Number
    bore_least: Number | None
    bore_most: Number | None
    rated: Number | None
    mass: Number
    price: Decimal
    active: bool = True


@dataclass(frozen=True)
class Service:
    """A row of `Services`."""

    code: str
    charged: str
    price: Decimal


@dataclass(frozen=True)
class Customer:
    """A row of `Customers`."""

    name: str
    discount: Decimal
    exempt: bool
    names: tuple[str, ...] = ()  # other names
    together: bool = False
    choice: str = "least price"


@dataclass(frozen=True)
class Catalogue:
    """A whole catalogue; `policy` holds only what the catalogue sets, in SI."""

    mounts: tuple[Mount, ...]
    boards: tuple[Board, ...]
    rings: tuple[Ring, ...]
    pairings: tuple[tuple[str, str], ...]
    extensions: tuple[Extension, ...] = ()
    services: tuple[Service, ...] = ()
    breaks: tuple[tuple[str, int, Decimal], ...] = ()
    freight: tuple[tuple[Number | None, Decimal], ...] = ((None, Decimal(0)),)
    customers: tuple[Customer, ...] = ()
    policy: dict[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Post:
    """A row of a survey; None is a blank cell. `size` is the outside size, whatever was typed.

    `unread` names the columns (by the names below) in whose cell something stands that cannot be read; the value here is
    then None. `inferred`: the shape is not stated, and taken from what the size says.
    """

    site: str
    code: str
    shape: str = "round"
    size: Number = 0.0889
    height: Number = 2.5908
    basis: str | None = None
    measured: str | None = None
    wall: Number | None = None
    material: str | None = None
    height_measured: str | None = None
    rise: Number | None = None
    clear: Number | None = None
    line: str | None = "straight"
    base: str | None = None
    lean: Number | None = None
    fittings: str | None = "none"
    condition: str | None = None
    wanted: tuple[Number, ...] | None = None
    least_width: Number | None = None
    mount_asked: str | None = None
    board_asked: str | None = None
    ring_asked: str | None = None
    footing_diameter: Number | None = None
    footing_depth: Number | None = None
    soil: int | None = None
    wind: Number | None = None
    exposure: str | None = None
    shimmed: str | None = None
    cleared: str | None = None
    cleared_by: str | None = None
    cleared_moment: Number | None = None
    unread: frozenset[str] = frozenset()
    inferred: bool = False
    quantity: int = 1
    site_name: str = "Ground"
    site_kind: str | None = None
    customer: str | None = None
    typed_size: str | None = None  # a nominal size, as typed; a schedule in it gives the wall


def floats(thing: Any) -> Any:
    """The same item or post with each exact fraction turned into a float."""
    if isinstance(thing, Fraction):
        return float(thing)
    if isinstance(thing, tuple):
        return tuple(floats(part) for part in thing)
    if isinstance(thing, dict):
        return {name: floats(value) for name, value in thing.items()}
    if dataclasses.is_dataclass(thing) and not isinstance(thing, type):
        values = {f.name: floats(getattr(thing, f.name)) for f in dataclasses.fields(thing)}
        return dataclasses.replace(thing, **values)
    return thing
