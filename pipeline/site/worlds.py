"""What all sites of a run share, made from a catalogue: the run's own, or one that a promise was made with."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pipeline import PROGRAM
from pipeline.ledger.kept_catalogue import Kept
from pipeline.rules.catalogue_arrays import catalogue
from pipeline.sheets.report import Setting, SettingReport
from pipeline.site.task import World
from schemas.policy import SETTINGS

ITEM_TABLES = (("Mounts", "mount"), ("Boards", "board"), ("Rings", "ring"), ("Extensions", "extension"), ("Services", "service"))


def world_of(read: Kept, fingerprint: str) -> World:
    """What all sites of a run share; the catalogues that they came out with before are added when it is known which."""
    items = {table: {row[code]: row for row in read.tables.get(table, ())} for table, code in ITEM_TABLES}
    setting = Setting(items, settings(read.stated, read.typed), PROGRAM, fingerprint)
    return World(catalogue(read.tables), read.policy, setting, {})


def settings(stated: frozenset[str], typed: Mapping[str, Any]) -> tuple[SettingReport, ...]:
    """Every setting in force, as typed, and where it comes from."""
    made = []
    for s in SETTINGS:
        value, unit = typed.get(s.name, (s.default, s.unit))
        where = "catalogue" if s.name in stated else "default"
        made.append(SettingReport(s.name, value, unit, where, s.help, s.source))
    return tuple(made)
