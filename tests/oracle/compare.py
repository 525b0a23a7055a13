"""Comparison of the files in data/ with the oracle's rows, as closely as results are rounded."""

from __future__ import annotations

import csv
import math
from collections.abc import Iterable
from decimal import Decimal
from pathlib import Path
from typing import Any

Row = dict[str, Any]

KEYS = {
    "mount_fit": ("site_code", "post_code", "mount"),
    "kits": ("site_code", "post_code", "mount", "board", "ring"),
    "posts": ("site_code", "post_code"),
    "extensions": ("site_code", "post_code"),
    "quote_lines": ("site_code", "kind", "item"),
    "sites": ("site_code",),
    "customers": ("customer", "site_code"),
    "options": ("customer", "site_code", "choice"),
}
RELATIVE = {
    "utilisation_play": 1e-5,
    "utilisation_storm": 1e-5,
    "moment_play_N_m": 1e-5,
    "moment_storm_N_m": 1e-5,
    "ring_sag_m": 1e-3,
    "hung_mass_kg": 1e-5,
    "wind_speed_m_s": 1e-5,
    "lean_deg": 1e-5,
}
"""Relative tolerance of a column, that of six digits; every other float is a length and must agree within 1e-6 m.
The sag may stand on a wall of B36.10M, whose two unit columns round differently."""
LENGTH = 1e-6
PIPE_TABLE = {"wall_m": 1e-5, "post_size_m": 6e-5}
"""ASME B36.10M's two unit columns round differently; absolute tolerance [m]."""


def read(folder: Path, name: str) -> list[dict[str, str]]:
    with (folder / "data" / f"{name}.csv").open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


def same_number(column: str, want: float, text: str) -> bool:
    if math.isinf(want) or text == "INF":
        return math.isinf(want) and text == "INF"
    try:
        got = float(text)
    except ValueError:
        return False
    if column in RELATIVE:
        return math.isclose(want, got, rel_tol=RELATIVE[column], abs_tol=LENGTH if column.endswith("_m") else 1e-9)
    return abs(want - got) <= PIPE_TABLE.get(column, LENGTH)


def same(column: str, want: Any, text: str) -> bool:
    """Whether a cell says what the oracle says; None is a blank cell."""
    if want is None:
        return text == ""
    if isinstance(want, Decimal):
        return text != "" and Decimal(text) == want
    if isinstance(want, float):
        return same_number(column, want, text)
    if isinstance(want, int):
        return text == str(want)
    return text == want


def keyed(rows: Iterable[Row], name: str) -> dict[tuple[str, ...], Row]:
    """Rows by key; a freight line is known by its kind alone, whatever its item is called."""
    out = {}
    for row in rows:
        key = tuple(str(row[column]) for column in KEYS[name])
        if name == "quote_lines" and row["kind"] == "freight":
            key = (key[0], "freight", "")
        assert key not in out, f"{name}: {key} stands there twice"
        out[key] = row
    return out


def differences(folder: Path, expected: dict[str, list[Row]]) -> list[str]:
    """One line for each cell, row or order in which DIR/data differs from the oracle."""
    found: list[str] = []
    for name, rows in expected.items():
        got, want = keyed(read(folder, name), name), keyed(rows, name)
        found += [f"{name} {key}: row is missing" for key in want if key not in got]
        found += [f"{name} {key}: row is not expected" for key in got if key not in want]
        skip = {"list_price", "unit_price", "quantity", "item"}
        for key in want.keys() & got.keys():
            freight = name == "quote_lines" and want[key]["kind"] == "freight"
            for column, value in want[key].items():
                if not (freight and column in skip) and not same(column, value, got[key][column]):
                    found.append(f"{name} {key} {column}: want {value!r}, got {got[key][column]!r}")
    return sorted(found)
