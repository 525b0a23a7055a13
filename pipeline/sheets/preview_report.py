"""What the preview of another catalogue says: plain values, made by `pipeline.run.preview`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pipeline.money.price_changes import PriceChange
from pipeline.sheets.movement import KitMove, Movement, Says


@dataclass(frozen=True)
class SitePreview:
    """One site's quotation as it stands and as it would be; None where there is none."""

    site_code: str
    customer: str
    promise: str  # '', sent, accepted, declined
    broken: bool  # the promise holds an item that the new catalogue withdraws or lacks
    was: Says | None
    now: Says | None
    reasons: tuple[str, ...]  # kinds of change, with the item
    valid_until: str


@dataclass(frozen=True)
class PriceTouched:
    """A price that moves, and how many quotations it touches, before or then."""

    change: PriceChange
    quotations: int


@dataclass(frozen=True)
class Preview:
    """What would change; `failures` are sentences about sites that could not be worked out."""

    currency: str
    program: str
    date: str
    movement: Movement
    sites: tuple[SitePreview, ...]
    kits: tuple[KitMove, ...]
    prices: tuple[PriceTouched, ...]
    failures: tuple[str, ...]
    wanted_was: tuple[Mapping[str, Any], ...]  # rows of data/wanted.csv, as they stand
    wanted: tuple[Mapping[str, Any], ...]  # and then

    feet: bool  # lengths are shown in feet and inches

    @property
    def broken_promises(self) -> tuple[str, ...]:
        """Codes of the sites with a promise that holds an item which the new catalogue withdraws or lacks."""
        return tuple(s.site_code for s in self.sites if s.broken)
