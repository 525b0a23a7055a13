"""The post's outside size from what its sender stated: outside, round the post, or nominal."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from pipeline.intake.measures import PipeSize
from pipeline.intake.survey.read_cell import Fault, Reading, read_cell, typed
from pipeline.reading.book import Cell
from schemas.survey import SURVEY

CIRCUMFERENCE, NOMINAL = "circumference", "nominal pipe size"
_SIZE = SURVEY.column("post_size")


@dataclass(frozen=True, slots=True)
class Size:
    """The outside size D [m] ('None' where it cannot be read), what it was stated as, and what follows.

    `wall` [m] is that of a stated schedule. `faults` names the column beside each fault.
    """

    outside: float | None
    basis: str
    nominal: bool = False
    wall: float | None = None
    unit: str = ""
    said: tuple[str, ...] = ()
    faults: tuple[tuple[str, Fault], ...] = ()


def read_size(cell: Cell | None, unit: str, stated: str | None, heading_basis: str, shape: str | None) -> Size:
    """Read a size; `stated` is the word under `Size is` ('' = blank, None = not readable), `shape` likewise.

    D = C/pi for a circumference and ASME B36.10M's outside diameter for a nominal size, of round posts only.
    """
    basis = stated or heading_basis
    got = read_cell(_SIZE, cell, unit, basis)
    said_by_size = isinstance(got, Reading) and isinstance(got.value, PipeSize)
    where = "size_basis" if stated else "post_size"
    faults: list[tuple[str, Fault]] = []
    if isinstance(got, Fault):
        faults.append(("post_size", got))
        if got.code == "CONFLICT" and stated and stated != NOMINAL:
            faults.append(
                ("size_basis", Fault("CONFLICT", f"“{stated}”, but the size cell says otherwise: {got.message}", NOMINAL))
            )
    if stated and heading_basis and stated != heading_basis:
        message = f"“{stated}”, but the heading over the size says {heading_basis}."
        faults.append(("size_basis", Fault("CONFLICT", message, heading_basis)))
    if isinstance(got, Reading) and got.size and stated == "" and not heading_basis:
        basis = got.size.basis
    basis = NOMINAL if said_by_size and stated is not None else basis
    if shape not in (None, "round") and basis in (CIRCUMFERENCE, NOMINAL):
        faults.append((where, _round_only(basis, shape or "", cell, where)))
    word = basis or ("outside diameter" if shape in (None, "round") else "outside width")
    if isinstance(got, Fault) or got.value is None:
        return Size(None, word, faults=tuple(faults))
    return _size(got, word, stated, shape, tuple(faults))


def _size(got: Reading, word: str, stated: str | None, shape: str | None, faults: tuple[tuple[str, Fault], ...]) -> Size:
    """The size where its cell was read."""
    value: Any = got.value
    if isinstance(value, PipeSize):
        wall = None if value.wall is None else float(value.wall)
        return Size(float(value.size), word, True, wall, got.unit, got.said, faults)
    said = got.said
    if word == CIRCUMFERENCE:
        value = value / math.pi
    if word == "outside diameter" and shape == "square" and stated:
        said = (*said, "The outside diameter of a square post is taken as its width across the flats.")
    known = stated is not None and not faults
    wall = float(got.size.wall) if got.size and got.size.wall is not None else None
    return Size(value if known else None, word, False, wall, got.unit, said, faults)


def _round_only(basis: str, shape: str, cell: Cell | None, where: str) -> Fault:
    shown = f" (“{typed(cell)}”)" if cell is not None else ""
    message = f"a {basis}{shown} is for round posts, but the post shape says {shape}."
    if where == "post_size":
        return Fault("CONFLICT", message, "the outside width as measured, such as 4 in")
    return Fault("CONFLICT", message, "outside width" if shape == "square" else "outside diameter")
