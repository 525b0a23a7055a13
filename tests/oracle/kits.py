"""Kits of one post: which may be sold, what they cost, which is best; design sections 6 and 8."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from .fit import ORDER, SLACK, VERDICTS, Fit, fit, is_cleared
from .loads import Load, load
from .model import Board, Catalogue, Mount, Post, Ring


@dataclass(frozen=True)
class Choice:
    """A kit that may be sold for one post."""

    fit: Fit
    board: Board
    ring: Ring
    load: Load
    confirm: list[str]
    verdict: str
    unit_price: Decimal
    settled: bool


def board_fails(mount: Mount, board: Board, ring: Ring, least_width: float | None) -> bool:
    """BOARD: wider or heavier than the mount allows, or narrower than asked."""
    too_wide = board.width > mount.width_most + SLACK
    too_heavy = board.mass + ring.mass > mount.mass_most + SLACK
    too_narrow = least_width is not None and board.width < least_width - SLACK
    return too_wide or too_heavy or too_narrow


def services_due(f: Fit, catalogue: Catalogue) -> list[str]:
    """Ways of charging that apply to one post of a kit."""
    due = ["per post"]
    if f.extension:
        due.append("per extension")
    if f.post.fittings == "removable":
        due.append("per stripped post")
    return due


def price(f: Fit, board: Board, ring: Ring, catalogue: Catalogue) -> Decimal:
    due = services_due(f, catalogue)
    services = sum((s.price for s in catalogue.services if s.charged in due), Decimal(0))
    extension = f.extension.price if f.extension else Decimal(0)
    return f.mount.price + board.price + ring.price + extension + services


def footing_unsure(post: Post, rough: Load) -> bool:
    """FOOTING: stated and too shallow, or nobody knows what holds the post."""
    if rough.footing_depth is None and post.base != "base plate":
        return True
    if post.footing_depth is None or (post.base != "driven" and post.footing_diameter is None):
        return True
    return rough.footing_depth is not None and post.footing_depth < rough.footing_depth - SLACK


def settles(post: Post, rough: Load) -> bool:
    """An engineer's yes, with a name, up to the moment that is stated beside it."""
    if not is_cleared(post) or "cleared_moment" in post.unread:
        return False
    if post.cleared_moment is None:
        return True
    moments = (rough.moment_play, rough.moment_storm)
    return None not in moments and max(moments) <= 1.01 * post.cleared_moment + SLACK


def make_choice(f: Fit, board: Board, ring: Ring, catalogue: Catalogue, policy: dict[str, Any]) -> Choice:
    rough = load(f, board, ring, policy)
    confirm = list(f.confirm)
    settled = settles(f.post, rough)
    if f.post.base == "base plate" and not settled and "BASE" not in confirm:
        confirm = [code for code in ORDER if code in {*confirm, "BASE"}]
    if "least_width" in f.post.unread:
        confirm.append("BOARD")
    if (rough.state == "over" and not settled) or "cleared" in f.post.unread:
        confirm.append("STRENGTH")
    if footing_unsure(f.post, rough) and not settled:
        confirm.append("FOOTING")
    verdict = "viable_confirm" if f.verdict == "viable" and confirm else f.verdict
    return Choice(f, board, ring, rough, confirm, verdict, price(f, board, ring, catalogue), settled)


def differing(choice: Choice) -> int:
    """How many items differ from what was asked for."""
    post = choice.fit.post
    pairs = (
        (post.mount_asked, choice.fit.mount.code),
        (post.board_asked, choice.board.code),
        (post.ring_asked, choice.ring.code),
    )
    return sum(asked is not None and asked != code for asked, code in pairs)


def setting_range(mount: Mount) -> float:
    """Top setting less lowest setting."""
    if mount.adjustment == "stepped" and mount.step:
        return float(mount.step) * math.floor(mount.travel / mount.step + 1e-9)
    return float(mount.travel) if mount.adjustment == "continuous" else 0.0


def own_key(choice: Choice, want: str, pair: tuple[str, str] | None) -> float:
    """What the customer's choice puts first; lengths that agree to a nanometre are equal."""
    if want == "widest board":
        return -round(float(choice.board.width), 9)
    if want == "most heights":
        return -round(setting_range(choice.fit.mount), 9)
    return float(want == "one board" and (choice.board.code, choice.ring.code) != pair)


def rank_key(choice: Choice, want: str = "least price", pair: tuple[str, str] | None = None) -> tuple[Any, ...]:
    return (
        choice.load.state == "over",
        differing(choice),
        -choice.fit.covered,
        VERDICTS.index(choice.verdict),
        own_key(choice, want, pair),
        choice.unit_price,
        choice.fit.mount.code,
        choice.board.code,
        choice.ring.code,
    )


def best_first(kits: list[Choice], want: str, pair: tuple[str, str] | None) -> list[Choice]:
    """The kits of a post in the order of a customer's choice."""
    return sorted(kits, key=lambda kit: rank_key(kit, want, pair))


def choices(post: Post, catalogue: Catalogue, policy: dict[str, Any]) -> list[Choice]:
    """Every kit that may be sold for a post, best first by least price."""
    found: list[Choice] = []
    if post.cleared == "no":  # STRENGTH fails for every kit
        return found
    for mount in catalogue.mounts:
        if not mount.active:
            continue
        f = fit(post, mount, catalogue, policy)
        if f.verdict == "not_viable":
            continue
        for board in catalogue.boards:
            if not board.active or (mount.code, board.code) not in catalogue.pairings:
                continue
            for ring in catalogue.rings:
                fits = ring.active and ring.pattern == board.pattern
                if fits and not board_fails(mount, board, ring, post.least_width):
                    found.append(make_choice(f, board, ring, catalogue, policy))
    return sorted(found, key=rank_key)
