"""What the site workbook is made from: plain values, SI, Decimal money; None = not known.

Made by `pipeline.site`, read by `pipeline.sheets` and by the ledger's comparison. Nothing here is
formatted for show.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from pipeline.intake.query import Query
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.money.amounts import QuoteLine, Totals

STRENGTH_CODES = frozenset(("STRENGTH", "FOOTING"))
"""Findings that belong to the strength of a kit on a post, and not to its fit."""


@dataclass(frozen=True)
class FindingReport:
    """One finding about the recommended pair or kit; `sentence` is plain English with the numbers in it."""

    code: str
    state: str  # pass, confirm, fail
    sentence: str
    value: float | None
    least: float | None
    most: float | None
    margin: float | None
    unit: str


@dataclass(frozen=True)
class MountReport:
    """One active mount on one post."""

    mount: str
    verdict: str
    failed: tuple[str, ...]
    confirm: tuple[str, ...]
    ring_height_max: float
    shortfall: float
    extension: str  # '' none
    added: float  # 0 without one
    top: float  # highest setting, with the extension if any
    covered: int


@dataclass(frozen=True)
class MomentShare:
    """One part of the moment at the ground, for a reader who is no engineer."""

    what: str  # 'Weight of mount, board and ring', ...
    play: float  # [N m]
    storm: float


@dataclass(frozen=True)
class Margins:
    """How the worse share of strength of a recommended kit would move; None = not known."""

    rusted: float | None  # with a quarter of the wall gone
    soft: float | None  # of steel of 25 ksi
    windier: float | None  # at the next wind step
    wind_limit: float | None  # wind speed at which it reaches 1 [m/s]; 0 at any, inf at none
    widest_board: float | None  # widest board of the catalogue within 80 % [m]
    swings: tuple[float, ...]  # by loads.sensitivities.INPUTS; NaN = not known
    torque: float | None  # of a pull sideways on the ring, at the clamps [N m]


@dataclass(frozen=True)
class KitReport:
    """One kit for one post."""

    rank: int
    verdict: str
    confirm: tuple[str, ...]
    mount: str
    board: str
    ring: str
    extension: str  # '' none
    covered: int
    top: float  # highest ring setting above the playing surface [m]
    lowest: float  # lowest one
    lowered: float  # how far below its highest place the mount is clamped [m]
    added: float
    load_state: str  # within, over, unknown
    utilisation_play: float | None  # may be inf
    utilisation_storm: float | None
    moment_play: float
    moment_storm: float
    wall_needed: float | None
    footing_depth_needed: float | None
    ring_sag: float | None
    hung_mass: float
    unit_price: Decimal
    shares: tuple[MomentShare, ...] = ()  # recommended kit only
    margins: Margins | None = None  # recommended kit only
    cleared: bool = False  # a licensed engineer has cleared its loads

    @property
    def fit_open(self) -> bool:
        """Whether something about the fit is to be confirmed."""
        return bool(set(self.confirm) - STRENGTH_CODES)

    @property
    def strength_open(self) -> bool:
        """Whether a licensed engineer must look at its loads."""
        return bool(set(self.confirm) & STRENGTH_CODES) or (self.load_state != "within" and not self.cleared)


@dataclass(frozen=True)
class Advice:
    """Something worth knowing that is never a verdict."""

    about: str
    sentence: str
    source: str


@dataclass(frozen=True)
class PostReport:
    """One quoted row."""

    row: SurveyRow
    quantity: int
    size: float
    size_uncertainty: float  # NaN: it could not be read how it was taken
    height: float
    height_uncertainty: float  # NaN likewise
    court_rise: float
    lean: float  # [rad], NaN: could not be read
    wall: float | None
    wind_speed: float  # NaN: could not be read
    exposure: str  # '' likewise
    wanted: tuple[float, ...]
    target: float
    footing_diameter: float  # NaN: could not be read
    soil_class: int  # 0 likewise
    outcome: str  # a verdict, or no_kit
    kits: tuple[KitReport, ...]  # by rank, at most options_per_post; empty where none fits
    kits_in_all: int
    mounts: tuple[MountReport, ...]  # every active mount, in natural order of code
    findings: tuple[FindingReport, ...]  # of the recommended pair and kit
    remedy: str  # '' where a kit fits
    advice: tuple[Advice, ...]
    measure_next: str  # the input whose measurement would settle most of the load, '' none
    taken: tuple[str, ...]  # 'Lean: not stated, taken as plumb', ...

    @property
    def kit(self) -> KitReport | None:
        """The recommended kit."""
        return self.kits[0] if self.kits else None


@dataclass(frozen=True)
class Change:
    """One reason for a new revision, as in data/changes.csv without the site's columns."""

    kind: str
    item: str
    was: str
    now: str


@dataclass(frozen=True)
class SettingReport:
    """One policy setting in force."""

    name: str
    value: str  # as typed
    unit: str
    where: str  # 'catalogue' or 'default'
    help: str
    source: str


@dataclass(frozen=True)
class SiteReport:
    """Everything that one site's workbook says."""

    site_code: str
    site_name: str
    customer: str
    site_kind: str
    revision: int
    date: str  # ISO
    valid_until: str
    state: str
    currency: str
    customer_listed: bool
    tax_exempt: bool
    posts: tuple[PostReport, ...]  # natural order of post code
    held: tuple[SurveyRow, ...]
    queries: tuple[Query, ...]  # of this site, in order
    lines: tuple[QuoteLine, ...]
    totals: Totals
    feet: bool  # show lengths in feet and inches (else mm)
    remarks: tuple[str, ...]  # site-level sentences ('The customer is not listed: no discount, taxed')
    changes: tuple[Change, ...]  # since the revision before; empty for r1
    total_was: Decimal | None
    posts_in_all: int
    rows_held: int
    rows_loose: int = 0  # rows on its sheets that name no site
    promise: str = ""  # sent, accepted; '' none

    @property
    def posts_with_kit(self) -> int:
        """Posts that have a kit."""
        return sum(p.quantity for p in self.posts if p.kit)

    @property
    def posts_to_confirm(self) -> int:
        """Posts with a kit of whose fit something is to be confirmed."""
        return sum(p.quantity for p in self.posts if p.kit and p.kit.fit_open)

    @property
    def posts_strength_open(self) -> int:
        """Posts with a kit whose strength a licensed engineer must look at."""
        return sum(p.quantity for p in self.posts if p.kit and p.kit.strength_open)


@dataclass(frozen=True)
class Setting:
    """What all sites of a run share: the catalogue's items by code, the policy, versions."""

    items: Mapping[str, Mapping[str, Mapping[str, Any]]]  # table name -> code -> row
    policy: tuple[SettingReport, ...]
    program: str  # 'postquote 0.1.0'
    catalogue: str  # fingerprint of the catalogue's content

    @property
    def paper(self) -> str:
        """What the workbooks print on: Letter or A4."""
        return next((s.value for s in self.policy if s.name == "paper"), "Letter")


@dataclass(frozen=True)
class SiteSummary:
    """What the portfolio needs of one site; plain enough to be kept in the ledger as JSON."""

    site: Mapping[str, Any]  # the row of data/sites.csv, money as text
    outcomes: Mapping[str, int]  # outcome -> posts
    goods: tuple[Mapping[str, Any], ...]  # rows of data/quote_lines.csv whose kind is goods, money as text
    extensions: tuple[Mapping[str, Any], ...]  # rows of data/extensions.csv
    # posts with no kit: post_code, quantity, shape, size_m, height_m, target_m, shortfall_m, remedy
    shortfalls: tuple[Mapping[str, Any], ...]
    stops: Mapping[str, int]  # failed finding code -> posts with no kit that it stops
    # mount -> {'serves': posts, 'confirm': posts, 'extended': posts, CODE: posts that it stops}
    reach_mounts: Mapping[str, Mapping[str, int]]
    reach_boards: Mapping[str, int]  # board -> posts that it can serve
    would_serve: Mapping[str, int]  # what -> posts: 'extension of 0.610 m on round 88.9 mm', 'mount for square 101.6 mm', ...
    confirms: Mapping[str, int]  # code -> posts whose recommended kit waits for it
    feet: bool  # the site is shown in feet and inches
    senders: tuple[str, ...]  # files that the site's rows came from
    # posts that one new item would give a kit: shape, size_m, added_m (None: a mount is wanted), quantity
    wants: tuple[Mapping[str, Any], ...] = ()
    looked: tuple[Mapping[str, Any], ...] = ()  # posts with a kit, as sheets.look_first reads them
    # of a promise: state, day, note, revision, until, total, would_be ('' the same), posts_moved, broken (sentences)
    promised: Mapping[str, Any] = field(default_factory=dict)

    @property
    def declined(self) -> bool:
        """Whether its quotation was declined: it counts for nothing."""
        return bool(self.promised.get("state") == "declined")
