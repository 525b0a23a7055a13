"""The public description of DIR/data: an open Data Package, made from the glossary."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from schemas.column import Column, Kind, Table
from schemas.results import RESULTS

TYPES: dict[Kind, str] = {
    "text": "string",
    "code": "string",
    "choice": "string",
    "lengths": "string",
    "whole": "integer",
    "flag": "boolean",
    "date": "date",
}
"""Type of a field in the open standard; every other kind is a number (which may be `INF`).

Source: Frictionless Data, Table Schema, field types; `number` names INF, -INF and NaN.
"""


def field(column: Column, key: Sequence[str] = ()) -> dict[str, Any]:
    """One field: its name, type, title, description, unit and what may stand in it."""
    type_ = TYPES.get(column.kind, "number")
    entry: dict[str, Any] = {"name": column.name, "type": type_, "title": column.heading, "description": column.help}
    if column.unit:
        entry["unit"] = column.unit
    if type_ == "boolean":
        entry.update(trueValues=["true"], falseValues=["false"])
    constraints: dict[str, Any] = {}
    if column.needed or column.name in key:
        constraints["required"] = True
    if column.values:
        constraints["enum"] = list(column.values)
    if constraints:
        entry["constraints"] = constraints
    return entry


def resource(table: Table) -> dict[str, Any]:
    """One file of the folder: UTF-8, comma, a heading row."""
    schema: dict[str, Any] = {"fields": [field(c, table.key) for c in table.columns], "missingValues": [""]}
    if table.key:
        schema["primaryKey"] = list(table.key)
    return {
        "name": table.name,
        "path": f"{table.name}.csv",
        "profile": "tabular-data-resource",
        "title": table.row_is.capitalize(),
        "description": f"One row is {table.row_is}.",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "dialect": {"delimiter": ",", "header": True},
        "schema": schema,
    }


def descriptor(tables: Sequence[Table] = RESULTS, version: str = "") -> dict[str, Any]:
    """The whole of datapackage.json as plain values in a fixed order of keys.

    `tables` are the files of the folder, `version` the program's; '' leaves it out.
    Source: Data Package standard (frictionlessdata.io), profiles data-package and tabular-data-resource.
    """
    head: dict[str, Any] = {
        "profile": "data-package",
        "name": "postquote-data",
        "title": "Which mount, board and ring fit each standing post, and what it comes to",
        "description": (
            "SI units, named in each field. A blank cell is not known, never 0; INF is a post too slender for the load "
            "screen. Load figures are a rough screen and not a design: have them checked against the local code by a "
            "licensed engineer. No text begins as a formula does: before an apostrophe, =, +, -, @, a tab or a line's end stands "
            "an apostrophe, to be taken away; a backslash is doubled, and control characters, signs of writing direction and "
            "separators of lines are written as \\uXXXX."
        ),
    }
    if version:
        head["version"] = version
    return {**head, "resources": [resource(t) for t in tables]}
