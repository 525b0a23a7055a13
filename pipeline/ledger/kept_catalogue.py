"""A catalogue as the ledger keeps it: JSON, with Decimal money as `{"money": text}`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any


@dataclass(frozen=True)
class Kept:
    """A catalogue that a run used; the fields are those of intake.catalogue.CatalogueRead."""

    tables: Mapping[str, tuple[Mapping[str, Any], ...]]
    policy: Mapping[str, Any]
    stated: frozenset[str]
    typed: Mapping[str, tuple[str, str]]


def as_plain(tables: Mapping[str, Any], policy: Mapping[str, Any], stated: Iterable[str], typed: Mapping[str, Any]) -> Any:
    """The catalogue as JSON holds it."""
    return _plain({"tables": tables, "policy": policy, "stated": sorted(stated), "typed": typed})


def from_plain(plain: Any) -> Kept:
    """The inverse of `as_plain`, after a trip through JSON."""
    kept = _restored(plain)
    return Kept(kept["tables"], kept["policy"], frozenset(kept["stated"]), kept["typed"])


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {k: _plain(v) for k, v in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(v) for v in value]
    return {"money": str(value)} if isinstance(value, Decimal) else value


def _restored(value: Any) -> Any:
    if isinstance(value, Mapping):
        if value.keys() == {"money"}:
            return Decimal(value["money"])
        return {k: _restored(v) for k, v in value.items()}
    return tuple(_restored(v) for v in value) if isinstance(value, list) else value
