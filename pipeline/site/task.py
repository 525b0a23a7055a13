"""What all sites of a run share, and what one site brings and takes away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from pipeline.intake.query import Query
from pipeline.intake.survey.survey_row import SurveyRow
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
    content: Mapping[str, Any]  # see site.content
    # what its rows said then: post -> `typed`, `values` -> column; None where that is not known
    rows: Mapping[str, Mapping[str, Mapping[str, Any]]] | None
    program: str  # that it last came out with
    catalogue: str  # fingerprint of the one that it last came out with
    total: str
    issue: bool  # its workbook is missing and must be made again
    renew: bool  # it has expired and is to be issued anew


@dataclass(frozen=True)
class Promise:
    """A quotation that was sent and is still valid, or was accepted: it stands. Source: design section 13."""

    revision: int
    state: str  # sent, accepted
    day: str  # on which it was marked so
    note: str
    date: str
    valid_until: str
    workbook: str
    content: Mapping[str, Any]  # see site.content
    content_hash: str
    total: str
    catalogue: str  # fingerprint of the one that it was made with; World.before has it


@dataclass(frozen=True)
class SiteTask:
    """One site to work out."""

    site: str  # folded code
    site_code: str
    site_name: str
    customer: str
    site_kind: str
    rows: tuple[SurveyRow, ...]  # to quote, in natural order of post
    held: tuple[SurveyRow, ...]  # rows that wait
    queries: tuple[Query, ...]
    date: str
    valid_until: str
    rows_loose: int = 0  # rows beside its own that name no site
    folder: str = ""  # of its workbooks, in the output folder
    revision: int = 1  # the number of its next revision
    before: Before | None = None
    decided: Mapping[str, Any] = field(default_factory=dict)  # what depends on the customer's other sites; plain values
    moved_by: tuple[str, ...] = ()  # codes of those that have changed since the last finished run
    promise: Promise | None = None  # that stands
    ended: Promise | None = None  # one that a changed survey row has ended


@dataclass(frozen=True)
class SiteOutcome:
    """One site, worked out."""

    site: str
    error: str = ""  # a sentence, with the working of a failure behind it; then nothing else counts
    trace: str = ""
    lines: tuple[tuple[str, bytes], ...] = ()  # lines of the data files in blocks: data file, packed text
    asked: tuple[Query, ...] = ()
    summary: Mapping[str, Any] | None = None  # SiteSummary as plain values
    figures: Figures = field(default_factory=dict)
    for_customer: Mapping[str, Any] = field(default_factory=dict)  # what its customer's quotation says of it: a CustomerSite
    state: str = ""
    revision: int = 0
    date: str = ""
    valid_until: str = ""
    content_hash: str = ""
    content: Mapping[str, Any] | None = None  # only with a new revision
    total: str = ""
    workbook: bytes | None = None  # only with a new revision, or where the old one is missing
    field_sheet: bytes | None = None  # with the workbook
    changes: tuple[Change, ...] = ()
