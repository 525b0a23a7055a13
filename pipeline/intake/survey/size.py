"""The post's outside size from what its sender stated: outside, round the post, or nominal."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pipeline.intake.measures import PipeSize
from pipeline.intake.survey.fault import Fault
from pipeline.intake.survey.read_cell import read_cell
from pipeline.reading.book import Cell
from schemas.survey import SURVEY

CIRCUMFERENCE, NOMINAL = "circumference", "nominal pipe size"
_SIZE = SURVEY.column("post_size")


@dataclass(frozen=True, slots=True)
class Size:
    """The outside size D [m] ('None' where it cannot be read), what it was stated as, and what follows.

    `basis` is '' where nothing says it: the outside size then. `wall` [m] is that of a stated schedule or of a
    size by wall, `shape` what the cell says of it ('' = nothing). `faults` names the column beside each fault.
    """

    outside: float | None
    basis: str
    nominal: bool = False
    wall: float | None = None
    shape: str = ""
    unit: str = ""
    remarks: tuple[str, ...] = ()
    faults: tuple[tuple[str, Fault], ...] = ()
    read: bool = False


def read_size(cell: Cell | None, unit: str, stated: str | None, heading_basis: str) -> Size:
    """Read a size; `stated` is the word under `Size is` ('' = blank, None = not readable).

    D = C/pi for a circumference and ASME B36.10M's outside diameter for a nominal size.
    """
    got = read_cell(_SIZE, cell, unit, stated or heading_basis)
    if isinstance(got, Fault):
        return Size(None, stated or heading_basis, faults=tuple(_unread(got, stated)))
    faults: tuple[tuple[str, Fault], ...] = ()
    if stated and heading_basis and stated != heading_basis:
        message = f"“{stated}”, but the heading over the size says {heading_basis}."
        faults = (("size_basis", Fault("CONFLICT", message, heading_basis)),)
    if got.value is None:
        return Size(None, stated or heading_basis, faults=faults)
    if isinstance(got.value, PipeSize):
        pipe = got.value
        wall = None if pipe.wall is None else float(pipe.wall)
        basis = "" if stated is None else NOMINAL
        return Size(float(pipe.size), basis, True, wall, pipe.shape, got.unit, got.remarks, faults, True)
    of_cell = got.size.basis if got.size and not heading_basis and not stated else ""
    basis = stated or heading_basis or of_cell
    around = basis == CIRCUMFERENCE
    outside = got.value / math.pi if around else got.value
    wall = float(got.size.wall) if got.size and got.size.wall is not None else None
    shape = "round" if around else got.size.shape if got.size else ""
    known = stated is not None and not faults
    return Size(outside if known else None, basis, False, wall, shape, got.unit, got.remarks, faults, True)


def _unread(fault: Fault, stated: str | None) -> list[tuple[str, Fault]]:
    """The fault of the size's cell, and of what it was stated as where the two contradict each other."""
    faults = [("post_size", fault)]
    if fault.code == "CONFLICT" and stated and stated != NOMINAL:
        message = f"“{stated}”, but the size cell says otherwise: {fault.message}"
        faults.append(("size_basis", Fault("CONFLICT", message, NOMINAL)))
    return faults
