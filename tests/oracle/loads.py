"""Rough installed load of one post with one kit: design section 7, in plain scalars."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import Any

from . import footing
from .fit import Fit
from .model import Board, Post, Ring
from .section import beyond_screen, section, utilisation

G = 9.80665  # m/s2. Source: standard gravity, BIPM SI brochure
STEEL = 7850.0  # kg/m3. Source: EN 1991-1-1 table A.4 (memory)
TERRAIN = {"B": (7.0, 365.76), "C": (9.5, 274.32), "D": (11.5, 213.36)}
"""alpha, zg [m]. Source: ASCE 7-16 table 26.11-1, as the design has it."""
SLENDER = {"round": ((1, 0.7), (7, 0.8), (25, 1.2)), "square": ((1, 1.3), (7, 1.4), (25, 2.0))}
"""L/D, Cf. Source: ASCE 7-16 figure 29.4-1, as the design has it."""
FIBA_GAP, FIBA_RADIUS, BOARD_BELOW_RING = 0.151, 0.225, 0.150


@dataclass(frozen=True)
class Case:
    """One load case: axial without the post's own steel [N], moments [N m], force on the footing [N].

    `greatest` is the moment that bends the post most: of a driven post below the ground.
    """

    axial: float
    moment: float
    greatest: float
    joint: float
    lateral: float


@dataclass(frozen=True)
class Wind:
    """Forces [N] at one speed, and where they act [m]."""

    board: float
    post: float
    extension: float


@dataclass(frozen=True)
class Load:
    """What data/kits.csv says about one kit on one post; None is blank."""

    state: str
    play: float | None
    storm: float | None
    moment_play: float | None
    moment_storm: float | None
    wall_needed: float | None
    footing_depth: float | None
    sag: float | None
    hung_mass: float


@dataclass(frozen=True)
class Kit:
    """A fit with a board and a ring, and the lengths that follow from them."""

    fit: Fit
    board: Board
    ring: Ring

    @property
    def added(self) -> float:
        return self.fit.extension.added if self.fit.extension else 0.0

    @property
    def length(self) -> float:
        return self.fit.post.height + self.added

    @property
    def ring_height(self) -> float:
        return self.fit.z_top + (self.fit.post.rise or 0.0)

    @property
    def load_height(self) -> float:
        """h_c: a mount that lifts carries its load above the post's top."""
        return max(self.length, self.ring_height)

    @property
    def board_centre(self) -> float:
        return self.ring_height - BOARD_BELOW_RING + self.board.height / 2

    @property
    def face(self) -> float:
        """Eccentricity of the board's face."""
        clamped = self.fit.extension.upper if self.fit.extension else self.fit.post.size
        return clamped / 2 + self.fit.mount.overhang

    @property
    def hung(self) -> float:
        own = self.fit.extension.mass if self.fit.extension else 0.0
        return self.fit.mount.mass + self.board.mass + self.ring.mass + own

    @property
    def dead(self) -> float:
        mount = self.face - self.fit.mount.overhang / 2
        ring = self.face + FIBA_GAP + FIBA_RADIUS
        return G * (self.fit.mount.mass * mount + self.board.mass * self.face + self.ring.mass * ring)


def kz(height: float, exposure: str) -> float:
    alpha, zg = TERRAIN[exposure]
    return 2.01 * (max(height, 4.572) / zg) ** (2 / alpha)


def post_drag(shape: str, ratio: float) -> float:
    points = SLENDER[shape]
    for (x0, y0), (x1, y1) in itertools.pairwise(points):
        if ratio <= x1:
            return y0 + (y1 - y0) * (max(ratio, x0) - x0) / (x1 - x0)
    return points[-1][1]


def wind(kit: Kit, speed: float, exposure: str, least: float, policy: dict[str, Any]) -> Wind:
    """Force on board, post and extension; `least` is the least q G Cf [Pa]."""
    post = kit.fit.post

    def pressure(height: float, directional: float, drag: float) -> float:
        q = 0.613 * kz(height, exposure) * directional * speed**2
        return max(least, q * policy["gust_factor"] * drag)

    board = pressure(kit.board_centre + kit.board.height / 2, 0.85, policy["board_drag"])
    drag = post_drag(post.shape, kit.length / post.size)
    tube = pressure(kit.length, 1.0 if post.shape == "round" else 0.90, drag)
    upper = kit.fit.extension.upper if kit.fit.extension else 0.0
    return Wind(board * kit.board.width * kit.board.height, tube * post.size * post.height, tube * upper * kit.added)


def bearing(kit: Kit, policy: dict[str, Any]) -> tuple[float, float]:
    """Width that the ground holds [m], and its allowable lateral bearing per metre of depth [Pa/m]."""
    post = kit.fit.post
    width = post.footing_diameter or policy["footing_diameter"]
    if post.base == "driven":
        width = post.size * (math.sqrt(2) if post.shape == "square" else 1.0)
    return width, footing.LATERAL_BEARING[post.soil or policy["soil_class"]] * footing.PSF_PER_FOOT


def below_ground(moment: float, shear: float, width: float, per_metre: float) -> float:
    """Greatest moment of a driven post, by adding up slices of soil until they have used up the shear."""
    depth = math.sqrt(2 * shear / (per_metre * width))
    slices = 100
    held = 0.0  # moment at `depth` of what the soil above holds
    for n in range(slices):
        z = (n + 0.5) / slices * depth
        held += per_metre * z * width * (depth / slices) * (depth - z)
    return moment + shear * depth - held


def case(kit: Kit, blow: Wind, factor: float, hang: float, push: float, policy: dict[str, Any]) -> Case:
    """Dead, lean, hanging load, push and wind together."""
    height = kit.fit.post.height
    weight = kit.hung * G + hang
    lean = math.sin(kit.fit.post.lean or 0.0) * weight
    carried = kit.dead + hang * kit.face
    at_ground = blow.board * kit.board_centre + blow.post * height / 2 + blow.extension * (height + kit.added / 2)
    at_joint = blow.board * abs(kit.board_centre - height) + blow.extension * kit.added / 2
    moment = carried + lean * kit.load_height + push * kit.ring_height + factor * at_ground
    shear = push + factor * (blow.board + blow.post + blow.extension)
    driven = kit.fit.post.base == "driven"
    return Case(
        axial=weight,
        moment=moment,
        greatest=below_ground(moment, shear, *bearing(kit, policy)) if driven else moment,
        joint=carried + lean * (kit.load_height - height) + push * abs(kit.ring_height - height) + factor * at_joint,
        lateral=shear,
    )


def cases(kit: Kit, policy: dict[str, Any]) -> tuple[Case, Case, Case]:
    """Hang, push and storm."""
    post = kit.fit.post
    exposure = post.exposure or policy["exposure"]
    breeze = wind(kit, policy["play_wind_speed"], exposure, 0.0, policy)
    gale = wind(kit, post.wind or policy["wind_speed"], exposure, policy["least_wind_pressure"], policy)
    return (
        case(kit, breeze, 1.0, policy["play_load"], 0.0, policy),
        case(kit, breeze, 1.0, 0.0, policy["push_load"], policy),
        case(kit, gale, 0.6, 0.0, 0.0, policy),
    )


def post_utilisation(kit: Kit, c: Case, wall: float, policy: dict[str, Any]) -> float:
    """Utilisation at the ground line for a stated wall; infinite where the screen does not reach."""
    post, fy, e = kit.fit.post, policy["steel_yield"], policy["steel_modulus"]
    s = section(post.shape, post.size, wall * policy["design_wall_factor"])
    if beyond_screen(s, fy, e):
        return math.inf
    return utilisation(s, fy, e, kit.load_height, c.axial + STEEL * s.area * post.height * G, c.greatest)


def wall_needed(kit: Kit, three: tuple[Case, ...], policy: dict[str, Any]) -> float | None:
    """Least stated wall at which the worst case is 1: first of 60 trial walls that does, then bisection."""
    if (kit.fit.post.material or "unknown") not in ("steel", "unknown"):
        return None

    def worst(wall: float) -> float:
        return max(post_utilisation(kit, c, wall, policy) for c in three)

    most = kit.fit.post.size / 5
    trials = [most * k / 60 for k in range(1, 61)]
    high = next((wall for wall in trials if worst(wall) <= 1), None)
    if high is None:
        return None
    low = max(high - most / 60, 1e-7)
    for _ in range(24):
        middle = (low + high) / 2
        low, high = (low, middle) if worst(middle) <= 1 else (middle, high)
    return high


def load_state(kit: Kit, three: tuple[Case, ...], policy: dict[str, Any]) -> tuple[str, float | None, float | None]:
    """State, utilisation in play and in storm."""
    post, extension = kit.fit.post, kit.fit.extension
    if post.wall is None or post.material != "steel" or (extension and extension.rated is None):
        return "unknown", None, None
    s = section(post.shape, post.size, post.wall * policy["design_wall_factor"])
    if beyond_screen(s, policy["steel_yield"], policy["steel_modulus"]):
        return "unknown", None, None
    joint = [c.joint / extension.rated if extension else 0.0 for c in three]
    hang, push, storm = (max(post_utilisation(kit, c, post.wall, policy), j) for c, j in zip(three, joint, strict=True))
    play = max(hang, push)
    return ("within" if max(play, storm) <= 1 + 1e-9 else "over"), play, storm


def footing_depth(kit: Kit, three: tuple[Case, ...], policy: dict[str, Any]) -> float | None:
    """Deepest of the three cases, and of the permanent loads alone at the single bearing; None on a base plate."""
    if kit.fit.post.base == "base plate":
        return None
    width, single = bearing(kit, policy)
    k = single * policy["soil_short_term_factor"]
    lasting = kit.dead + math.sin(kit.fit.post.lean or 0.0) * kit.hung * G * kit.load_height
    passing = max(footing.depth(c.lateral, c.moment, width, k) for c in three)
    return max(passing, footing.depth(0.0, lasting, width, single))


def ring_sag(kit: Kit, policy: dict[str, Any]) -> float | None:
    post = kit.fit.post
    if kit.fit.extension or post.wall is None or (post.material or "unknown") not in ("steel", "unknown"):
        return None
    s = section(post.shape, post.size, post.wall * policy["design_wall_factor"])
    arm = kit.face
    return policy["play_load"] * arm * (arm + FIBA_GAP + FIBA_RADIUS) * kit.length / (policy["steel_modulus"] * s.inertia)


def load(fit: Fit, board: Board, ring: Ring, policy: dict[str, Any]) -> Load:
    """All load figures of one kit on one post."""
    kit = Kit(fit, board, ring)
    three = cases(kit, policy)
    state, play, storm = load_state(kit, three, policy)
    blind = unread_figures(fit.post)
    if "strength" in blind:
        state, play, storm = "unknown", None, None
    return Load(
        state=state,
        play=play,
        storm=storm,
        moment_play=None if "play" in blind else max(three[0].moment, three[1].moment),
        moment_storm=None if "storm" in blind else three[2].moment,
        wall_needed=None if "strength" in blind else wall_needed(kit, three, policy),
        footing_depth=None if "footing" in blind else footing_depth(kit, three, policy),
        sag=ring_sag(kit, policy),
        hung_mass=kit.hung,
    )


def unread_figures(post: Post) -> set[str]:
    """Figures that need a cell which could not be read: such a cell never takes the policy's value."""
    blind: set[str] = set()
    if {"lean", "exposure"} & post.unread:
        blind |= {"play"}
    if {"lean", "exposure", "wind"} & post.unread:
        blind |= {"storm", "strength", "footing"}
    if "soil" in post.unread:
        blind |= {"footing"} | ({"strength"} if post.base == "driven" else set())
    if "base" in post.unread or ("footing_diameter" in post.unread and post.base != "driven"):
        blind |= {"footing"}
    return blind
