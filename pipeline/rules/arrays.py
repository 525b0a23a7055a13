"""Arrays that the rules read and return; SI throughout, NaN = not known.

Words are kept as small whole numbers: the index in the tuple that `schemas` lists. Records of arrays have no equality,
since arrays have none; leaving it out also spares `explain` a tenth of its start.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from decimal import Decimal
from typing import Any

import numpy as np
import numpy.typing as npt

from schemas.lengths import SLACK as SLACK

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]
States = npt.NDArray[np.int8]
"""0 pass, 1 confirm, 2 fail."""

Policy = Mapping[str, Any]
"""Every setting of schemas.policy, in SI; choices and texts as words, `ring_height_wanted` a tuple."""

PASS, CONFIRM, FAIL = 0, 1, 2
VIABLE, VIABLE_CONFIRM, VIABLE_EXTENDED, NOT_VIABLE = 0, 1, 2, 3
NOT_ASKED, CLEARED, REFUSED = 0, 1, 2
"""What a licensed engineer has said of the loads on a post; cleared counts only with a name."""
UNREADABLE = (
    "measured_with",
    "height_measured_with",
    "clear_length",
    "post_base",
    "least_board_width",
    "footing_depth",
    "footing_diameter",
    "soil_class",
    "strength_cleared",
    "cleared_moment",
)
"""Columns of the survey of which a rule asks whether their cell could be read; of the others unknown says enough."""


@dataclass(frozen=True, eq=False, repr=False)
class Posts:
    """n posts; each array has shape (n,), `wanted` (n, w) padded with NaN."""

    shape: Ints  # index in survey.SHAPES
    shape_inferred: Bools  # taken from what the size says
    size: Floats  # D [m]
    size_uncertainty: Floats  # [m]
    size_estimated: Bools  # or it could not be read how it was taken
    height: Floats  # H [m]
    height_uncertainty: Floats  # [m]
    height_estimated: Bools  # or it could not be read how it was taken
    court_rise: Floats  # c [m]
    clear_length: Floats  # [m], NaN = could not be read
    line: Ints  # index in survey.LINES
    base: Ints  # index in survey.BASES
    lean: Floats  # [rad], NaN = could not be read
    lean_shimmed: Bools
    fittings: Ints  # index in survey.FITTINGS
    condition: Ints  # index in survey.CONDITIONS
    wall: Floats  # stated wall [m], NaN = unknown
    material: Ints  # index in survey.MATERIALS
    wanted: Floats  # wanted ring heights [m], (n, w), NaN padded, each row's real values first
    target: Floats  # T [m]
    least_board_width: Floats  # [m], NaN = no wish
    post_to_end_line: Floats  # [m], NaN = unknown
    footing_diameter: Floats  # [m], policy where not stated; a driven post has its own
    footing_stated: Bools  # its diameter is
    footing_depth: Floats  # stated depth [m], NaN = unknown
    soil_class: Ints  # 1 to 5, policy where not stated, 0 = could not be read
    wind_speed: Floats  # [m/s], policy where not stated, NaN = could not be read
    exposure: Ints  # index in survey.EXPOSURES, one beyond = could not be read
    cleared: Ints  # NOT_ASKED, CLEARED, REFUSED
    cleared_moment: Floats  # moment at the ground up to which that holds [N m], NaN = any
    unread_cells: Bools  # (n, c), what stands in the cell of UNREADABLE's column could not be read
    mount_asked: Ints  # index among the active mounts, -1 no wish, -2 a wish that cannot be met
    board_asked: Ints
    ring_asked: Ints
    choice: Ints  # of the customer, index in catalogue.CHOICES
    customer_board: Ints  # board and ring of the choice `one board`, among the active ones, -1 none
    customer_ring: Ints
    units: Ints  # in which sentences say lengths: plain.BOTH, FEET or METRIC

    def __len__(self) -> int:
        return len(self.size)

    def unread(self, column: str) -> Bools:
        """Where the cell of a column of UNREADABLE could not be read, (n,)."""
        return self.unread_cells[:, UNREADABLE.index(column)]

    def take(self, index: npt.ArrayLike) -> Posts:
        """The posts at `index`."""
        return Posts(**{f.name: getattr(self, f.name)[index] for f in fields(self)})


@dataclass(frozen=True, eq=False, repr=False)
class Mounts:
    """m active mounts, each array (m,)."""

    code: tuple[str, ...]
    shape: Ints  # index in survey.SHAPES
    size_least: Floats
    size_most: Floats
    adjustment: Ints  # index in catalogue.ADJUSTMENTS
    needed: Floats  # post height needed [m]
    for_ring: Floats  # ring height that goes with it [m]
    travel: Floats
    step: Floats  # 0 = continuous
    clamp_length: Floats
    overhang: Floats
    board_width_most: Floats
    board_mass_most: Floats
    mass: Floats
    price: Ints  # in `Catalogue.price_unit`


@dataclass(frozen=True, eq=False, repr=False)
class Boards:
    """b active boards, each array (b,)."""

    code: tuple[str, ...]
    width: Floats
    height: Floats
    mass: Floats
    pattern: Ints
    price: Ints


@dataclass(frozen=True, eq=False, repr=False)
class Rings:
    """r active rings, each array (r,)."""

    code: tuple[str, ...]
    mass: Floats
    pattern: Ints
    price: Ints


@dataclass(frozen=True, eq=False, repr=False)
class Extensions:
    """e active extensions, each array (e,)."""

    code: tuple[str, ...]
    shape: Ints
    size_least: Floats
    size_most: Floats
    joint: Ints  # index in catalogue.JOINTS
    added: Floats
    joint_length: Floats
    upper_size: Floats
    upper_clear: Floats
    bore_least: Floats  # NaN = no bound
    bore_most: Floats
    rated_moment: Floats  # NaN = unknown
    mass: Floats
    price: Ints


@dataclass(frozen=True, eq=False, repr=False)
class Catalogue:
    """The active items as arrays, and the rows of every table as they were read.

    `tables` maps a sheet's name to its rows (names of schemas.catalogue, SI floats, Decimal money);
    withdrawn items are in there and nowhere else. `pairs` is the (m, b) table of pairings. Prices in
    the arrays are whole multiples of `price_unit`, so that sums and comparisons are exact.
    """

    mounts: Mounts
    boards: Boards
    rings: Rings
    extensions: Extensions
    pairs: Bools
    price_unit: Decimal
    service_per_post: int
    service_per_extension: int
    service_per_stripped_post: int
    tables: Mapping[str, Sequence[Mapping[str, Any]]]


@dataclass(frozen=True, eq=False, repr=False)
class Finding:
    """One rule's answer: states (n, m) or (n, 1), and the numbers behind it where it has any.

    `value` is what was measured, `least`/`most` its limits, `margin` how far inside (positive) or
    outside (negative) the nearer limit it lies; each broadcasts to (n, m), NaN where there is none.
    `unit` is the SI unit of all four.
    """

    code: str
    state: States
    value: Floats
    least: Floats
    most: Floats
    margin: Floats
    unit: str


@dataclass(frozen=True, eq=False, repr=False)
class Fit:
    """n posts x m mounts, each array (n, m) unless said otherwise."""

    findings: tuple[Finding, ...]  # in the order of words.FIT_CODES
    verdict: States  # index in words.VERDICTS
    ring_height_max: Floats  # z_max, without extension [m]
    margin: Floats  # z_max - T [m]
    shortfall: Floats  # [m], 0 within the tolerance
    extension: Ints  # index among the active extensions, -1 none
    added: Floats  # [m], 0 without one
    top: Floats  # z_top, highest setting with the extension if any [m]
    lowered: Floats  # x, how far below its highest place the mount is clamped [m]
    covered: Ints
    wanted: Ints  # (n,)


@dataclass(frozen=True, eq=False, repr=False)
class Kits:
    """k kits that are not `not_viable`, by post and rank; each array (k,)."""

    post: Ints
    mount: Ints
    board: Ints
    ring: Ints
    extension: Ints  # -1 none
    rank: Ints  # 1, 2, 3 ... within each post
    verdict: States
    confirm: Ints  # bit i set: words.FINDING_CODES[i] is to be confirmed
    covered: Ints
    price: Ints  # unit price in Catalogue.price_unit
    cleared: Bools  # a licensed engineer has cleared it
    load: dict[str, Floats]  # the fields of loads.model.Loads


@dataclass(frozen=True)
class FindingLine:
    """One finding about one pair or kit in plain values; NaN where there is no such number."""

    code: str
    state: str  # pass, confirm, fail; of STRENGTH and FOOTING also unknown: nothing to hold against the limit
    sentence: str
    value: float
    least: float
    most: float
    margin: float
    unit: str


@dataclass(frozen=True)
class Note:
    """Something worth knowing that is never a verdict."""

    about: str
    sentence: str
    source: str


@dataclass(frozen=True)
class Refusal:
    """An item asked for that cannot be had at a post: the query ASKED."""

    name: str  # mount_asked, board_asked, ring_asked
    asked: str  # as typed
    reason: str  # unknown, withdrawn, not_viable
    findings: tuple[str, ...]  # codes that rule it out, where it is not viable there
    sentence: str
    suggestion: str


@dataclass(frozen=True)
class Step:
    """One thing to be changed so that a kit fits; `amount` in m, NaN where there is none."""

    kind: str  # strip, straighten, reset, clear, extension, ring_height, board, mount, replace
    amount: float
    text: str


@dataclass(frozen=True)
class Remedy:
    """The least change that would give a post a kit; empty where it has one.

    `mount` is the mount that would then fit, '' where the catalogue lacks it; `serves` what the
    catalogue would have to offer ('extension of 0.610 m on round 88.9 mm'), '' where nothing.
    """

    sentence: str = ""
    steps: tuple[Step, ...] = ()
    mount: str = ""
    serves: str = ""
