"""The posts of a row: one, or several side by side, each with its own columns beside those of all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pipeline.intake.layout.beside import key_of
from pipeline.intake.layout.grid import Row
from pipeline.intake.layout.tables import Head, Table


@dataclass(frozen=True)
class Group:
    """One post of a row: its name ('' where the row has one post), and the headings that it stands under."""

    label: str
    heads: Mapping[str, tuple[Head, ...]]
    own: frozenset[int]  # columns of this post alone


def groups_of(table: Table) -> list[Group]:
    """The posts that each row of a table can have, in the order of their columns."""
    keys: dict[str, str] = {}
    for head in sorted((h for hs in table.heads.values() for h in hs if h.label), key=lambda h: h.column):
        keys.setdefault(key_of(head.label), head.label)
    return [_group(table, key, label) for key, label in keys.items()] or [Group("", table.heads, frozenset())]


def _group(table: Table, key: str, label: str) -> Group:
    heads: dict[str, tuple[Head, ...]] = {}
    for name, every in table.heads.items():
        own = tuple(h for h in every if h.label and key_of(h.label) == key)
        if found := own or tuple(h for h in every if not h.label):
            heads[name] = found
    return Group(label, heads, frozenset(h.column for hs in heads.values() for h in hs if h.label))


def filled(groups: list[Group], cells: Row) -> list[Group]:
    """The posts that a row states; an empty group is no post, but a row has one at least."""
    there = [g for g in groups if not g.own or any(n in cells for n in g.own)]
    return there or groups[:1]
