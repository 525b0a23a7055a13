"""The sheet Policy: every setting in SI, from the catalogue where it states one, else the documented default."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import get_close_matches
from fractions import Fraction
from functools import cache
from typing import Any

from pipeline.intake.catalogue.cell import (
    PERCENT,
    UNREAD,
    Wrong,
    as_text,
    exact,
    own_unit,
    percent,
    plain,
    unit_fits,
    unusable,
    word,
)  # fmt: skip
from pipeline.intake.catalogue.currencies import ISO_4217
from pipeline.intake.catalogue.faults import Fault
from pipeline.intake.catalogue.sheet import Line, Lines
from pipeline.intake.measures import Doubt, read_decimal, read_lengths, read_measure, read_whole
from pipeline.reading.book import Cell
from pipeline.units import find
from schemas.policy import BY_NAME, SETTINGS, Setting

Typed = tuple[str, str]
SLACK = 1e-9
"""Relative slack on a setting's own bounds, for units that do not convert exactly."""


def read_policy(lines: Lines, faults: list[Fault]) -> tuple[dict[str, Any], frozenset[str], dict[str, Typed]]:
    """The policy in force in SI, the names that the sheet states, and each setting as typed with its unit."""
    stated: dict[str, tuple[Line, Any]] = {}
    typed = {s.name: (s.default, s.unit) for s in SETTINGS}
    for line in lines.rows:
        setting = _setting(line, stated, faults)
        if setting is None:
            continue
        value, as_typed = _stated(setting, line, faults)
        stated[setting.name] = (line, value)
        typed[setting.name] = as_typed
    policy = {**documented_policy(), **{n: v for n, (_, v) in stated.items() if v is not UNREAD}}
    _least_and_most(policy, stated, faults)
    return policy, frozenset(stated), typed


def documented_policy() -> dict[str, Any]:
    """Every setting of schemas.policy at its documented default, in SI (angles rad, percentages as a fraction).

    Choices and texts are words, whole numbers int, `soil_class` int, `ring_height_wanted` a rising tuple,
    `tax_rate` Decimal. Errors: ValueError names a documented default that cannot be read.
    """
    return dict(_documented())


@cache
def _documented() -> Mapping[str, Any]:
    policy = {}
    for s in SETTINGS:
        value = in_si(s, Cell(1, 1, "text", s.default), s.unit)
        if isinstance(value, Wrong):
            raise ValueError(f"{s.name}: {value.message}")
        policy[s.name] = value
    return policy


def in_si(setting: Setting, cell: Cell, unit: str) -> Any:
    """What stands in a setting's Value cell, in SI, or what is wrong with it. `unit` is the Unit cell's or the documented one."""
    if setting.kind == "choice":
        chosen = word(setting.values, as_text(cell))
        return int(chosen) if setting.name == "soil_class" and isinstance(chosen, str) else chosen
    if setting.kind == "text":
        code = as_text(cell).upper()
        known = setting.name != "currency" or code in ISO_4217
        return code if known else Wrong(f"“{as_text(cell)}” is no ISO 4217 currency code.", "Type three letters, such as USD.")
    read = _figures(setting, cell, unit)
    if isinstance(read, Wrong):
        return read
    for figure in read:
        if wrong := _bound(setting, figure):
            return wrong
    if setting.kind == "lengths":
        return tuple(sorted({float(f) for f in read}))
    if setting.kind == "whole":
        return int(read[0])
    return exact(read[0]) if setting.name == "tax_rate" else float(read[0])


def _figures(setting: Setting, cell: Cell, unit: str) -> list[Fraction] | Wrong:
    """The numbers of a Value cell in SI, exactly where the unit is."""
    if cell.kind == "bool":
        return Wrong(f"“{as_text(cell)}” is no number.", f"Type a value such as {setting.default}.")
    in_percent = "%" in (unit, cell.shown_unit) or cell.shown_unit == PERCENT or str(cell.value).rstrip().endswith("%")
    if setting.kind == "percent" or (setting.kind == "number" and in_percent):
        share = percent(cell, "%")
        return share if isinstance(share, Wrong) else [share]
    unit = own_unit(cell) or unit
    read: Any
    if setting.kind == "whole":
        read = read_whole(plain(cell))
    elif setting.kind == "number":
        read = read_decimal(plain(cell))
    elif setting.kind == "lengths":
        read = read_lengths(plain(cell), unit)
    else:
        read = read_measure(plain(cell), setting.kind, unit)
    if isinstance(read, Doubt):
        return Wrong(read.message, read.suggestion)
    if setting.kind in ("whole", "number"):
        return [Fraction(read)]
    return [Fraction(m.value) for m in (read if isinstance(read, tuple) else (read,))]


def _bound(setting: Setting, figure: Fraction) -> Wrong | None:
    """What is wrong where a figure lies outside what may be set."""
    for limit, sign, words in ((setting.at_least, 1, "below"), (setting.at_most, -1, "above")):
        if limit is None:
            continue
        bound = _limit(setting, limit)
        if sign * (figure - bound) < -SLACK * max(1.0, float(abs(bound))):
            shown = f"{limit:g} {setting.unit}".strip()
            hint = " A rate is a fraction: 7.25 % is 0.0725." if setting.name == "tax_rate" else ""
            return Wrong(f"“{setting.name}” is {words} {shown}.", f"Type a value that is not {words} {shown}.{hint}")
    return None


@cache
def _limit(setting: Setting, limit: float) -> Fraction:
    """A setting's own bound in SI."""
    if setting.kind in ("whole", "number"):
        return Fraction(str(limit))
    read = read_measure(f"{limit:g}", "length" if setting.kind == "lengths" else setting.kind, setting.unit)
    if isinstance(read, Doubt):
        raise ValueError(f"{setting.name}: {read.message}")
    return Fraction(read.value) / (100 if setting.kind == "percent" else 1)


def _setting(line: Line, stated: Mapping[str, Any], faults: list[Fault]) -> Setting | None:
    """The setting that a row names, if it is known and new."""
    if not line.has("setting"):
        return None
    typed, cell = line.values["setting"], line.cells["setting"]
    name = re.sub(r"[\W_]+", "_", typed.casefold()).strip("_")
    if name not in BY_NAME:
        near = get_close_matches(name, list(BY_NAME), n=1, cutoff=0.5)
        hint = f"Did you mean {near[0]}?" if near else f"The settings are: {', '.join(BY_NAME)}."
        faults.append(Fault("Policy", cell, f"“{typed}” is no setting that is known.", hint))
        return None
    if name in stated:
        first = stated[name][0].cells["setting"]
        faults.append(Fault("Policy", cell, f"“{name}” is set twice, here and at {first}.", "Keep one of the two rows."))
        return None
    return BY_NAME[name]


def _stated(setting: Setting, line: Line, faults: list[Fault]) -> tuple[Any, Typed]:
    """A stated setting in SI, and as it was typed; what is wrong goes to `faults` at its own cell."""
    cell = line.raw.get("value")
    unit = line.values.get("unit") or ""
    text = "" if cell is None else as_text(cell)
    if cell is None or line.values["value"] is UNREAD or unit is UNREAD:
        return UNREAD, (text, str(unit))
    kind = "length" if setting.kind == "lengths" else setting.kind
    if unit and not _unit_goes(kind, unit, setting.unit):
        wanted = f"Type {setting.unit}, or another unit of {kind}." if setting.unit else "Leave the unit blank."
        faults.append(Fault("Policy", line.cells["unit"], f"“{unit}” is no unit for “{setting.name}”.", wanted))
        return UNREAD, (text, unit)
    value = unusable(cell) or in_si(setting, cell, unit or setting.unit)
    if isinstance(value, Wrong):
        faults.append(Fault("Policy", line.cells["value"], value.message, value.suggestion))
        return UNREAD, (text, unit)
    return value, _as_typed(setting, cell, text, unit)


def _unit_goes(kind: str, unit: str, documented: str) -> bool:
    """Whether a Unit cell goes with a setting of this kind; words that are no unit do no harm where none is needed."""
    if kind in ("number", "whole", "choice", "text"):
        return (kind == "number" and unit == "%") or not find(unit)
    return unit.casefold() == documented.casefold() or unit_fits(unit, kind)


def _as_typed(setting: Setting, cell: Cell, text: str, unit: str) -> Typed:
    """The value and its unit for people: a unit within the text stands alone."""
    if cell.kind == "number" and cell.shown_unit:
        if cell.shown_unit == PERCENT and setting.kind in ("percent", "number"):
            return format(float(Fraction(str(plain(cell))) * 100), ".12g"), "%"
        return text, own_unit(cell) or unit or setting.unit
    bare = cell.kind == "number" or not isinstance(read_decimal(text), Doubt)
    return (text, unit or setting.unit) if bare or setting.kind in ("choice", "text") else (text, unit)


def _least_and_most(policy: Mapping[str, Any], stated: Mapping[str, tuple[Line, Any]], faults: list[Fault]) -> None:
    """A range's least is not above its most; the fault stands at the last of the two that is stated."""
    for name in BY_NAME:
        if not name.endswith("_least"):
            continue
        most = f"{name[:-6]}_most"
        if most in policy and policy[name] > policy[most]:
            lines = [stated[n][0] for n in (name, most) if n in stated]
            line = max(lines, key=lambda x: x.row)
            other = "" if len(lines) == 2 else " (the other one is at its documented default)"
            message = f"“{name}” is above “{most}”{other}."
            faults.append(Fault("Policy", line.cells["value"], message, "Correct one of them, or set the other one as well."))
