"""What fits what: one rule a function, in the order and words of schemas.findings.

A new rule is a function from a Case to a Finding and one from Facts to a sentence, side by side in FUNCTIONS, and its
words in schemas.findings.FIT_RULES.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from pipeline.rules import ring_height, sentences, word_rules
from pipeline.rules.arrays import CLEARED, CONFIRM, PASS, SLACK, Catalogue, Finding, Fit, Floats, Policy, Posts
from pipeline.rules.extension import SPIGOT, Choice, choose
from pipeline.rules.ring_height import Reach
from pipeline.rules.verdict import NOTHING, answer, doubtful, finding, verdict
from pipeline.rules.word_rules import by_word
from schemas.findings import FIT_RULES
from schemas.ring import RING_DIAMETER
from schemas.survey import BASES, CONDITIONS, FITTINGS, LINES, SHAPES


@dataclass(frozen=True)
class Case:
    """What a rule may look at: n posts, the catalogue, the policy, heights and extension of every pair."""

    posts: Posts
    catalogue: Catalogue
    policy: Policy
    reach: Reach
    choice: Choice
    lowered: Floats  # x [m], (n, m)


Rule = Callable[[Case], Finding]
Sentence = Callable[[sentences.Facts], str]


def shape(case: Case) -> Finding:
    """The post has the mount's shape; `other` is nobody's; what was inferred is to be confirmed.

    Source: design section 4, SHAPE.
    """
    post = case.posts.shape[:, None]
    same = (post == case.catalogue.mounts.shape) & (post != SHAPES.index("other"))
    return finding("SHAPE", doubtful(answer(same, np.zeros_like(same)), case.posts.shape_inferred[:, None]))


def size(case: Case) -> Finding:
    """The post's size is within the mount's window; an estimate with its whole band.

    Where it cannot be read how the size was taken, it counts as an estimate and never passes. Source: design section 4, SIZE.
    """
    p, m = case.posts, case.catalogue.mounts
    D, u, estimated = p.size[:, None], p.size_uncertainty[:, None], p.size_estimated[:, None]
    least, most = m.size_least - SLACK, m.size_most + SLACK
    inside = (least <= D) & (most >= D)
    all_inside = (least <= D - u) & (D + u <= most)
    meets = (D + u >= least) & (D - u <= most)
    state = answer(np.where(estimated, all_inside, inside), meets, ~np.isnan(D + u))
    state = doubtful(state, p.unread("measured_with")[:, None])
    return finding("SIZE", state, D, m.size_least[None, :], m.size_most[None, :], "m")


def line(case: Case) -> Finding:
    """The post is straight. Source: design section 4, LINE."""
    return finding("LINE", by_word(word_rules.LINE, LINES, case.posts.line))


def lean(case: Case) -> Finding:
    """The ring is level across its diameter, is shimmed, or can be. Source: design sections 4, LEAN, and 7, load_state."""
    angle, tol, limit = case.posts.lean, case.policy["ring_level_tolerance"], case.policy["lean_limit"]
    off = RING_DIAMETER * np.sin(angle)
    level, small = off <= tol + SLACK, angle <= limit + SLACK
    state = answer(level | (case.posts.lean_shimmed & small), small, ~np.isnan(angle))
    most = np.where(level | (state == CONFIRM), tol, RING_DIAMETER * math.sin(limit))  # a confirm lies above the tolerance
    return finding("LEAN", state[:, None], off[:, None], NOTHING, most[:, None], "m")


def fittings(case: Case) -> Finding:
    """Nothing is welded on. Source: design section 4, FITTINGS."""
    return finding("FITTINGS", by_word(word_rules.FITTINGS, FITTINGS, case.posts.fittings))


def condition(case: Case) -> Finding:
    """The post is sound. Source: design section 4, CONDITION."""
    return finding("CONDITION", by_word(word_rules.CONDITION, CONDITIONS, case.posts.condition))


def base(case: Case) -> Finding:
    """The post is set in the ground; a base plate is an engineer's matter. Source: design sections 4, BASE, and 7, load_state."""
    p = case.posts
    state = by_word(word_rules.BASE, BASES, p.base)
    cleared = (p.base == BASES.index("base plate")) & (p.cleared == CLEARED)
    return finding("BASE", doubtful(np.where(cleared[:, None], PASS, state), p.unread("post_base")[:, None]))


def clear(case: Case) -> Finding:
    """The clamps have clear straight post; of the extension where there is one.

    A clear length that could not be read is to be confirmed, save where not even the whole post would do.
    Source: design section 4, CLEAR.
    """
    uppers, clear = case.catalogue.extensions.upper_clear, case.posts.clear_length[:, None]
    post = np.broadcast_to(clear, case.lowered.shape)
    most = np.where(case.choice.made, uppers[case.choice.index], post) if len(uppers) else post
    value = case.lowered + case.catalogue.mounts.clamp_length
    longest = np.where(np.isnan(most), case.posts.height[:, None], most)
    state = answer(value <= longest + SLACK, np.zeros(value.shape, dtype=bool), ~np.isnan(value))
    return finding("CLEAR", doubtful(state, np.isnan(clear)), value, NOTHING, most, "m")


def height(case: Case) -> Finding:
    """The ring reaches the target; an estimate with its whole band.

    Where it cannot be read how the height was taken, it counts as an estimate and never passes. Source: design section 4,
    HEIGHT.
    """
    p, r, tol = case.posts, case.reach, case.policy["ring_height_tolerance"]
    u, estimated = p.height_uncertainty[:, None], p.height_estimated[:, None]
    bare = answer(np.where(estimated, r.margin - u, r.margin) >= -tol - SLACK, ~r.short, ~np.isnan(r.margin + u))
    with_extension = np.where(estimated, CONFIRM, PASS)
    state = doubtful(np.where(case.choice.made, with_extension, bare), p.unread("height_measured_with")[:, None])
    return finding("HEIGHT", state, r.greatest + case.choice.added, p.target[:, None] - tol, NOTHING, "m")


def joint(case: Case) -> Finding:
    """A spigot enters the post's bore; confirm where the wall is not stated. Source: design section 4, JOINT."""
    e, index = case.catalogue.extensions, case.choice.index
    if not e.code:
        return finding("JOINT", np.zeros(index.shape, dtype=np.int8))
    spigot = case.choice.made & (e.joint[index] == SPIGOT)
    bore = np.broadcast_to((case.posts.size - 2 * case.posts.wall)[:, None], index.shape)
    value, least, most = (np.where(spigot, a, np.nan) for a in (bore, e.bore_least[index], e.bore_most[index]))
    return finding("JOINT", np.where(spigot & np.isnan(bore), CONFIRM, PASS).astype(np.int8), value, least, most, "m")


FUNCTIONS: dict[str, tuple[Rule, Sentence]] = {
    "SHAPE": (shape, sentences.shape),
    "SIZE": (size, sentences.size),
    "LINE": (line, sentences.line),
    "LEAN": (lean, sentences.lean),
    "FITTINGS": (fittings, sentences.fittings),
    "CONDITION": (condition, sentences.condition),
    "BASE": (base, sentences.base),
    "CLEAR": (clear, sentences.clear),
    "HEIGHT": (height, sentences.height),
    "JOINT": (joint, sentences.joint),
}
"""What each row of schemas.findings.FIT_RULES computes, and what it says."""

RULES: tuple[Rule, ...] = tuple(FUNCTIONS[words.code][0] for words in FIT_RULES)
"""Every rule about a post with a mount, in the order in which files list them."""


def fit(posts: Posts, catalogue: Catalogue, policy: Policy, rules: Sequence[Rule] = RULES) -> Fit:
    """Findings, verdict, ring heights and extension of every post with every active mount, (n, m)."""
    mounts = catalogue.mounts
    reach = ring_height.reach(posts, mounts, policy)
    choice = choose(posts, mounts, catalogue.extensions, reach, policy)
    lowered = ring_height.lowered(reach.margin, choice.added)
    case = Case(posts, catalogue, policy, reach, choice, lowered)
    findings = tuple(rule(case) for rule in rules)
    top = ring_height.top_setting(reach.greatest, choice.added, posts.target)
    return Fit(
        findings=findings,
        verdict=verdict(findings, choice.made),
        ring_height_max=reach.greatest,
        margin=reach.margin,
        shortfall=reach.shortfall,
        extension=choice.index,
        added=choice.added,
        top=top,
        lowered=lowered,
        covered=ring_height.covered(posts, mounts, top, policy),
        wanted=(~np.isnan(posts.wanted)).sum(axis=1),
    )
