"""What all sites of a run share, and what one site brings and takes away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pipeline.intake.query import Query
from pipeline.ledger.kept_catalogue import Kept
from pipeline.rules.arrays import Catalogue, Policy
from pipeline.sheets.report import Change, Setting

Figures = Mapping[str, Any]
"""What other sites of the same customer need to know of a site; plain values, fit for JSON."""


@dataclass(frozen=True)
class World:
    """Catalogue, policy and settings of a run; sent to each worker once."""

    catalogue: Catalogue
    policy: Policy
    setting: Setting
    before: Mapping[str, Kept]  # catalogues that the sites last came out with, by fingerprint


@dataclass(frozen=True)
class Before:
    """The revision that a finished run left last, and what the site last came out with, changed or not."""

    revision: int
    date: str
    valid_until: str
    content_hash: str
    content: Mapping[str, Any]  # see quote.content
    rows: Mapping[str, Mapping[str, Mapping[str, Any]]]  # what its rows said then: post -> `typed`, `values` -> column
    program: str  # that it last came out with
    catalogue: str  # fingerprint of the one that it last came out with
    total: str
    issue: bool  # its workbook is missing and must be made again
    renew: bool  # it has expired and is to be issued anew


@dataclass(frozen=True)
class SiteTask:
    """One site to work out."""

    site: str  # folded code
    site_code: str
    site_name: str
    customer: str
    site_kind: str
    rows: tuple[bytes, ...]  # packed SurveyRows to quote, in natural order of post
    held: tuple[bytes, ...]  # packed SurveyRows that wait
    queries: tuple[Query, ...]
    folder: str  # of its workbooks, in the output folder
    date: str
    valid_until: str
    revision: int  # the number of its next revision
    before: Before | None
    rows_loose: int = 0  # rows beside its own that name no site


@dataclass(frozen=True)
class SiteOutcome:
    """One site, worked out."""

    site: str
    error: str = ""  # a sentence, with the working of a failure behind it; then nothing else counts
    trace: str = ""
    pieces: Mapping[str, bytes] | None = None  # data file -> lines
    asked: tuple[Query, ...] = ()
    summary: Mapping[str, Any] | None = None  # SiteSummary as plain values
    state: str = ""
    revision: int = 0
    date: str = ""
    valid_until: str = ""
    content_hash: str = ""
    content: Mapping[str, Any] | None = None  # only with a new revision
    total: str = ""
    workbook: bytes | None = None  # only with a new revision, or where the old one is missing
    changes: tuple[Change, ...] = ()
