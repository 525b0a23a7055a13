"""What the ledger holds, as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

OF_A_CUSTOMER = "\x1f"
"""Begins a customer's key among the revisions: no folded code of a site can hold it."""


@dataclass(frozen=True)
class Revision:
    """One revision of one site's quotation."""

    site: str  # folded site code
    revision: int
    run: int
    date: str
    valid_until: str
    workbook: str  # path in the output folder
    workbook_hash: str  # of the bytes that we wrote
    seen: str  # of the file as it was last seen; another one where a person has edited it
    catalogue: str
    program: str
    content_hash: str
    content: dict[str, Any]
    total: str


@dataclass(frozen=True)
class Latest:
    """The newest revision of one site, without its content."""

    site: str
    revision: int
    date: str
    valid_until: str
    workbook: str
    workbook_hash: str
    seen: str
    total: str


@dataclass(frozen=True)
class Mark:
    """What became of one revision of a site's quotation."""

    site: str
    site_code: str
    revision: int
    newest: int  # revision of the site when the mark was made; a later one ends it
    state: str  # sent, accepted, declined, open
    day: str  # ISO
    note: str
    run: int  # the last finished run when the mark was made


@dataclass(frozen=True)
class Output:
    """One file of the output folder that belongs to no single site."""

    hash: str  # of the bytes that we wrote
    seen: str  # of the file as it was last seen
    recipe: str = ""  # fingerprint of what it was made from


@dataclass(frozen=True)
class Known:
    """What the ledger knows of one site as it last came out."""

    site: str
    site_code: str
    run: int
    inputs: str
    catalogue: str
    result: bytes  # packed


@dataclass(frozen=True)
class SiteEntry:
    """One site as it was worked out: fingerprint of its inputs; its rows and its result, packed."""

    site: str
    site_code: str
    inputs: str
    rows: bytes
    result: bytes


@dataclass(frozen=True)
class Run:
    """One run of the folder."""

    run: int
    date: str
    started: str
    program: str
    catalogue: str
    exit_status: int | None
    prints: str
    outcome_text: str
    result_date: str
