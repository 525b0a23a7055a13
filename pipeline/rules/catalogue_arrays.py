"""The catalogue's rows as arrays: active items only, in natural order of code."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any

import numpy as np

from pipeline.rules.arrays import Boards, Bools, Catalogue, Extensions, Floats, Ints, Mounts, Rings
from schemas.catalogue import ADJUSTMENTS, JOINTS
from schemas.order import folded, natural
from schemas.survey import SHAPES

Row = Mapping[str, Any]
Tables = Mapping[str, Sequence[Row]]

PRICED = ("Mounts", "Boards", "Rings", "Extensions", "Services")


def catalogue(tables: Tables) -> Catalogue:
    """The catalogue that the rules read, from its tables as they were read.

    `tables` maps a sheet's name to rows by the names of schemas.catalogue: SI floats, words, Decimal
    money, None where blank. The order of rows counts for nothing.
    """
    unit = price_unit(tables)
    mounts, boards, rings, extensions = (active(tables, name) for name in PRICED[:4])
    patterns = _patterns(boards, rings)
    return Catalogue(
        mounts=_mounts(mounts, unit),
        boards=_boards(boards, unit, patterns),
        rings=_rings(rings, unit, patterns),
        extensions=_extensions(extensions, unit),
        pairs=_pairs(tables.get("Pairings", ()), mounts, boards),
        price_unit=unit,
        service_per_post=_service(tables, "per post", unit),
        service_per_extension=_service(tables, "per extension", unit),
        service_per_stripped_post=_service(tables, "per stripped post", unit),
        tables=tables,
    )


def code_column(table: str) -> str:
    """Name of the column that holds the code: `mount` of `Mounts`."""
    return table.lower().removesuffix("s")


def active(tables: Tables, table: str) -> list[Row]:
    """Active rows of an item table, in natural order of code."""
    code = code_column(table)
    rows = [r for r in tables.get(table, ()) if r.get("status") != "withdrawn"]
    return sorted(rows, key=lambda r: natural(r[code]))


def price_unit(tables: Tables) -> Decimal:
    """The greatest power of ten, at most 1, of which every list price is a whole multiple."""
    prices = [r["price"] for name in PRICED for r in tables.get(name, ())]
    places = [int(p.normalize().as_tuple().exponent) for p in prices]
    return Decimal(1).scaleb(min([0, *places]))


def _numbers(rows: Iterable[Row], name: str, blank: float = np.nan) -> Floats:
    return np.array([blank if r.get(name) is None else r[name] for r in rows], dtype=np.float64)


def _indexes(rows: Iterable[Row], name: str, words: Sequence[str]) -> Ints:
    return np.array([words.index(r[name]) for r in rows], dtype=np.int64)


def _codes(rows: Iterable[Row], name: str) -> tuple[str, ...]:
    return tuple(r[name] for r in rows)


def _prices(rows: Iterable[Row], unit: Decimal) -> Ints:
    return np.array([int(r["price"] / unit) for r in rows], dtype=np.int64)


def _patterns(boards: Sequence[Row], rings: Sequence[Row]) -> dict[str, int]:
    names = sorted({folded(r["ring_pattern"]) for r in (*boards, *rings)})
    return {name: i for i, name in enumerate(names)}


def _pattern_indexes(rows: Iterable[Row], patterns: Mapping[str, int]) -> Ints:
    return np.array([patterns[folded(r["ring_pattern"])] for r in rows], dtype=np.int64)


def _mounts(rows: Sequence[Row], unit: Decimal) -> Mounts:
    return Mounts(
        code=_codes(rows, "mount"),
        shape=_indexes(rows, "post_shape", SHAPES),
        size_least=_numbers(rows, "size_least_m"),
        size_most=_numbers(rows, "size_most_m"),
        adjustment=_indexes(rows, "adjustment", ADJUSTMENTS),
        needed=_numbers(rows, "post_height_needed_m"),
        for_ring=_numbers(rows, "for_ring_height_m"),
        travel=_numbers(rows, "travel_m", 0.0),
        step=_numbers(rows, "step_m", 0.0),
        clamp_length=_numbers(rows, "clamp_length_m"),
        overhang=_numbers(rows, "overhang_m"),
        board_width_most=_numbers(rows, "board_width_most_m"),
        board_mass_most=_numbers(rows, "board_mass_most_kg"),
        mass=_numbers(rows, "mass_kg"),
        price=_prices(rows, unit),
    )


def _boards(rows: Sequence[Row], unit: Decimal, patterns: Mapping[str, int]) -> Boards:
    return Boards(
        code=_codes(rows, "board"),
        width=_numbers(rows, "width_m"),
        height=_numbers(rows, "height_m"),
        mass=_numbers(rows, "mass_kg"),
        pattern=_pattern_indexes(rows, patterns),
        price=_prices(rows, unit),
    )


def _rings(rows: Sequence[Row], unit: Decimal, patterns: Mapping[str, int]) -> Rings:
    return Rings(
        code=_codes(rows, "ring"),
        mass=_numbers(rows, "mass_kg"),
        pattern=_pattern_indexes(rows, patterns),
        price=_prices(rows, unit),
    )


def _extensions(rows: Sequence[Row], unit: Decimal) -> Extensions:
    return Extensions(
        code=_codes(rows, "extension"),
        shape=_indexes(rows, "post_shape", SHAPES),
        size_least=_numbers(rows, "size_least_m"),
        size_most=_numbers(rows, "size_most_m"),
        joint=_indexes(rows, "joint", JOINTS),
        added=_numbers(rows, "added_m"),
        joint_length=_numbers(rows, "joint_length_m"),
        upper_size=_numbers(rows, "upper_size_m"),
        upper_clear=_numbers(rows, "upper_clear_m"),
        bore_least=_numbers(rows, "bore_least_m"),
        bore_most=_numbers(rows, "bore_most_m"),
        rated_moment=_numbers(rows, "rated_moment_N_m"),
        mass=_numbers(rows, "mass_kg"),
        price=_prices(rows, unit),
    )


def _pairs(rows: Iterable[Row], mounts: Sequence[Row], boards: Sequence[Row]) -> Bools:
    mount_at = {folded(r["mount"]): i for i, r in enumerate(mounts)}
    board_at = {folded(r["board"]): i for i, r in enumerate(boards)}
    pairs = np.zeros((len(mounts), len(boards)), dtype=bool)
    for r in rows:
        m, b = mount_at.get(folded(r["mount"])), board_at.get(folded(r["board"]))
        if m is not None and b is not None:  # a withdrawn item may still be paired
            pairs[m, b] = True
    return pairs


def _service(tables: Tables, charged: str, unit: Decimal) -> int:
    prices = [r["price"] for r in tables.get("Services", ()) if r["charged"] == charged]
    return int(sum(prices) / unit)
