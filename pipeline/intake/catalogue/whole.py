"""The catalogue: one workbook, one sheet a table, read whole or refused with every fault in one go."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from pipeline.intake.catalogue.cell import Wrong
from pipeline.intake.catalogue.faults import CatalogueFaults, Fault
from pipeline.intake.catalogue.links import ITEMS
from pipeline.intake.catalogue.logo import read_logo
from pipeline.intake.catalogue.model_faults import model_faults
from pipeline.intake.catalogue.policy import Typed, read_policy
from pipeline.intake.catalogue.rules import RULES, odd_adjustments
from pipeline.intake.catalogue.sheet import Lines, fold, read_sheet
from pipeline.reading import read_book
from pipeline.reading.book import Book, Sheet, UnreadableFileError
from schemas.catalogue import CATALOGUE, SELLER
from schemas.column import Table
from schemas.order import folded
from schemas.policy import POLICY


@dataclass(frozen=True)
class CatalogueRead:
    """A catalogue without a fault.

    `tables`: sheet's name -> rows in the sheet's order, by the names of schemas.catalogue: SI floats,
    words, Decimal money and percentages, whole numbers, None where a number is not stated. `policy`:
    every setting in SI; `stated`: the settings that the catalogue sets itself; `typed`: each setting's
    value and unit as a person wrote them. `fingerprint`: SHA-256 of the content, whatever the order of
    rows and columns, the units and the notes. `notes`: what was seen and not read.
    """

    tables: dict[str, tuple[dict[str, Any], ...]]
    policy: dict[str, Any]
    stated: frozenset[str]
    typed: dict[str, Typed]
    fingerprint: str
    notes: tuple[str, ...] = ()


def read_catalogue(path: str) -> CatalogueRead:
    """Read the catalogue at `path`.

    Errors: CatalogueFaults with every fault by sheet and cell; also where the file is no workbook.
    """
    try:
        book = read_book(path)
    except UnreadableFileError as e:
        raise CatalogueFaults([Fault("", "", e.reason, e.remedy)]) from e
    return catalogue_of(book, path)


def catalogue_of(book: Book, path: str = "") -> CatalogueRead:
    """The catalogue in the cells of `book`; its logo is looked at where its `path` is known. Errors: CatalogueFaults."""
    faults: list[Fault] = []
    sheets, notes = _sheets(book, faults)
    read = {t.name: read_sheet(t, sheets[t.name], faults) if t.name in sheets else Lines(t, ()) for t in CATALOGUE}
    model_faults(read, faults)
    for rule in RULES:
        rule(read, faults)
    policy, stated, typed = read_policy(read[POLICY.name], faults)
    picture = _logo(read[SELLER.name], path, faults) if path else ""
    if faults:
        raise CatalogueFaults(faults)
    tables = _as_listed({name: tuple(dict(line.values) for line in lines.rows) for name, lines in read.items()})
    notes += [note for lines in read.values() for note in lines.notes] + odd_adjustments(read)
    return CatalogueRead(tables, policy, stated, typed, _fingerprint(tables, policy, stated, picture), tuple(notes))


def _sheets(book: Book, faults: list[Fault]) -> tuple[dict[str, Sheet], list[str]]:
    """The sheet of each table; a missing or doubled one is a fault, any other is noted."""
    tables = {fold(t.name): t for t in CATALOGUE}
    found: dict[str, Sheet] = {}
    others: list[str] = []
    for sheet in book.sheets:
        table = tables.get(fold(sheet.name))
        if table is None:
            others.append(sheet.name)
        elif table.name in found:
            message = f"Two sheets are named for the same table: “{found[table.name].name}” and “{sheet.name}”."
            faults.append(Fault(table.name, "", message, "Keep one of them."))
        else:
            found[table.name] = sheet
    missing = [t for t in CATALOGUE if t.name not in found and not t.may_be_missing]
    if len(missing) == len([t for t in CATALOGUE if not t.may_be_missing]):
        suggestion = f"A catalogue has the sheets {', '.join(t.name for t in CATALOGUE)}."
        raise CatalogueFaults([Fault("", "", "This file is no catalogue: it has none of its sheets.", suggestion)])
    faults.extend(_missing(table, others) for table in missing)
    return found, [f"The sheet {name!r} is not part of a catalogue and is not read." for name in others]


def _missing(table: Table, others: Iterable[str]) -> Fault:
    """The fault of a missing sheet; a sheet with a name like it is named."""
    from difflib import get_close_matches

    near = get_close_matches(table.name, list(others), n=1, cutoff=0.6)
    hint = (
        f"Rename the sheet “{near[0]}” to “{table.name}”."
        if near
        else f"Add it, headed: {', '.join(c.titled for c in table.columns)}."
    )
    return Fault(table.name, "", f"There is no sheet “{table.name}”.", hint)


def _as_listed(tables: dict[str, tuple[dict[str, Any], ...]]) -> dict[str, tuple[dict[str, Any], ...]]:
    """Codes in pairings and price breaks spelt as their own sheet spells them."""
    spelt = {t: {folded(r[c]): r[c] for r in tables[t]} for t, c in ITEMS.items()}
    every = {k: v for codes in spelt.values() for k, v in codes.items()}
    for row in tables["Pairings"]:
        row.update(mount=spelt["Mounts"][folded(row["mount"])], board=spelt["Boards"][folded(row["board"])])
    for row in tables["Price breaks"]:
        row["item"] = every[folded(row["item"])]
    return tables


def _logo(lines: Lines, path: str, faults: list[Fault]) -> str:
    """SHA-256 of the seller's logo, '' where there is none; what is wrong with it is a fault at its cell."""
    for line in lines.rows:
        if line.values["setting"] == "logo" and line.has("value") and line.values["value"]:
            logo = read_logo(path, line.values["value"])
            if not isinstance(logo, Wrong):
                return hashlib.sha256(logo.data).hexdigest()
            faults.append(Fault(SELLER.name, line.cells["value"], logo.message, logo.suggestion))
    return ""


def _fingerprint(
    tables: Mapping[str, Iterable[Mapping[str, Any]]], policy: Mapping[str, Any], stated: Iterable[str], picture: str
) -> str:
    """SHA-256 of the content in a canonical order; `picture` is the logo's own."""
    rows = {
        name: sorted(json.dumps({k: _canonical(v) for k, v in row.items() if k != "note"}, sort_keys=True) for row in table)
        for name, table in tables.items()
        if name != POLICY.name
    }
    content = {"tables": rows, "policy": {k: _canonical(v) for k, v in policy.items()}, "stated": sorted(stated), "logo": picture}
    return hashlib.sha256(json.dumps(content, sort_keys=True).encode()).hexdigest()


def _canonical(value: Any) -> Any:
    """A value as JSON can hold it; equal amounts of money give equal text, 12 significant digits of a measure count."""
    if isinstance(value, Decimal):
        return str(value.normalize()) if value else "0"
    if isinstance(value, float):
        return format(value, ".12g")
    return [_canonical(v) for v in value] if isinstance(value, tuple) else value
