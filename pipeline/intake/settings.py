"""The policy in force where a catalogue says nothing: the documented defaults, in SI."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from schemas.policy import SETTINGS, Setting


@lru_cache(maxsize=1)
def _documented() -> tuple[tuple[str, Any], ...]:
    return tuple((s.name, in_si(s)) for s in SETTINGS)


def documented() -> dict[str, Any]:
    """Every setting's documented default in SI; words stay words, `ring_height_wanted` is a tuple."""
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
    if setting.kind in ("number", "percent"):
        return float(setting.default)
    if setting.kind == "lengths":
        several = read_lengths(setting.default, setting.unit)
        if isinstance(several, Doubt):
            raise ValueError(f"{setting.name}: {several.message}")
        return tuple(float(m.value) for m in several)
    one = read_measure(setting.default, setting.kind, setting.unit)
    if isinstance(one, Doubt):
        raise ValueError(f"{setting.name}: {one.message}")
    return float(one.value)
