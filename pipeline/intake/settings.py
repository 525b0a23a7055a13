"""The policy in force where a catalogue says nothing: the documented defaults, in SI."""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache
from typing import Any

from schemas.policy import SETTINGS, Setting


@lru_cache(maxsize=1)
def _documented() -> tuple[tuple[str, Any], ...]:
    return tuple((s.name, in_si(s)) for s in SETTINGS)


def documented() -> dict[str, Any]:
    """Every setting's documented default in SI.

    Words stay words, percentages are fractions, `soil_class` is a whole number, `tax_rate` a Decimal
    and `ring_height_wanted` a tuple in rising order.
    """
    return dict(_documented())


def in_si(setting: Setting) -> Any:
    """The documented default of `setting`, read by the grammar that surveys are read by.

    Errors: ValueError where the documented default cannot be read (a fault in schemas.policy).
    """
    from pipeline.intake.measures import Doubt, read_lengths, read_measure

    if setting.kind in ("choice", "text"):
        return int(setting.default) if setting.name == "soil_class" else setting.default
    if setting.kind == "whole":
        return int(setting.default)
    if setting.name == "tax_rate":
        return Decimal(setting.default)
    if setting.kind == "number":
        return float(setting.default)
    if setting.kind == "percent":
        return float(Decimal(setting.default) / 100)
    if setting.kind == "lengths":
        several = read_lengths(setting.default, setting.unit)
        if isinstance(several, Doubt):
            raise ValueError(f"{setting.name}: {several.message}")
        return tuple(sorted(float(m.value) for m in several))
    one = read_measure(setting.default, setting.kind, setting.unit)
    if isinstance(one, Doubt):
        raise ValueError(f"{setting.name}: {one.message}")
    return float(one.value)
