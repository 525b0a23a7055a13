"""The least change that would give a kit to a post that has none: in plain words."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from pipeline.rules.arrays import FAIL, REFUSED, SLACK, Catalogue, Fit, Floats, Posts, Remedy, Step
from pipeline.rules.plain import InUnits
from pipeline.rules.ring_height import lift
from schemas.findings import BY_CODE
from schemas.lists import joined
from schemas.survey import BASES, CONDITIONS, FITTINGS, LINES, SHAPES

PLANNED = frozenset(("SHAPE", "SIZE", "LINE", "LEAN", "FITTINGS", "CONDITION", "BASE", "CLEAR", "HEIGHT", "JOINT"))
"""Findings for which a way out is known; any other is to be put right as it is."""


LEVEL = 0.0008
"""Half a sixteenth of an inch [m]: what is less is shown as nothing."""


def unplanned(fit: Fit) -> list[str]:
    """Codes of the findings that no way out is known for."""
    return [f.code for f in fit.findings if f.code not in PLANNED]


@dataclass(frozen=True)
class Plan(InUnits):
    """What to do for one post: `way` is pair (change post or wishes for mount m), mount (another one), replace."""

    way: str
    i: int
    m: int  # -1 none
    posts: Posts
    catalogue: Catalogue
    fit: Fit
    widest: Floats  # widest board of each mount [m], (m,)
    reach: float  # ring height that may be accepted instead of an extension [m], NaN none

    @property
    def shape(self) -> str:
        return SHAPES[self.posts.shape[self.i]]

    @property
    def units(self) -> int:
        return int(self.posts.units[self.i])

    @property
    def mount(self) -> str:
        return "" if self.way == "mount" else self.catalogue.mounts.code[self.m]

    def fails(self, code: str) -> bool:
        """Whether the finding fails for the plan's mount."""
        f = next(f for f in self.fit.findings if f.code == code)
        return bool(np.broadcast_to(f.state, self.fit.verdict.shape)[self.i, self.m] == FAIL)

    @property
    def narrow(self) -> bool:
        """Whether the mount's widest board is narrower than asked for."""
        return bool(self.widest[self.m] < self.posts.least_board_width[self.i] - SLACK)


def put(plan: Plan) -> Remedy:
    """The plan as steps and one sentence or two."""
    if plan.way == "replace" and plan.m < 0:
        return Remedy("The catalogue has no board and ring that may be sold with a mount.")
    steps = tuple({"pair": _pair, "mount": _another, "replace": _replace}[plan.way](plan))
    texts = joined([s.text for s in steps])
    end = f": mount {plan.mount} would then fit." if plan.mount else "."
    sentence = texts[0].upper() + texts[1:] + end + _instead(plan, steps)
    return Remedy(sentence, steps, plan.mount, _serves(plan, steps))


def _post_steps(plan: Plan) -> Iterator[Step]:
    """What must be done to the post itself, whatever the mount."""
    p, i = plan.posts, plan.i
    if p.fittings[i] == FITTINGS.index("fixed"):
        yield Step("strip", math.nan, "strip the welded fittings off")
    lean = next(f for f in plan.fit.findings if f.code == "LEAN")
    leans = lean.state[i, 0] == FAIL
    if p.line[i] == LINES.index("bent") or leans:
        angle = f" (it leans {math.degrees(p.lean[i]):.1f}°)" if leans else " (it is bent)"
        yield Step("straighten", math.nan, f"straighten or replace the post{angle}")
    if p.condition[i] == CONDITIONS.index("loose"):
        yield Step("reset", math.nan, "set the loose post firmly, in a footing that an engineer has looked at")


def _pair(plan: Plan) -> Iterator[Step]:
    yield from _post_steps(plan)
    i, m, fit, mounts = plan.i, plan.m, plan.fit, plan.catalogue.mounts
    if plan.fails("HEIGHT"):
        short, post = float(fit.shortfall[i, m]), f"{plan.shape} posts of {plan.size(plan.posts.size[i])}"
        upper = plan.window(mounts.size_least[m], mounts.size_most[m])
        text = f"add at least {plan.at_least(short)} with an extension that the catalogue does not have, for {post}"
        yield Step("extension", short, f"{text}, its upper tube {upper}")
    elif plan.fails("CLEAR"):
        need = float(fit.lowered[i, m] + mounts.clamp_length[m])
        yield Step("clear", need, f"clear and straighten the post for {plan.at_least(need)} from its top down")
    for code in unplanned(fit):
        if plan.fails(code):
            yield Step("mend", math.nan, f"put right the {BY_CODE[code].about}")
    if plan.narrow:
        yield _narrower(plan)


def _narrower(plan: Plan) -> Step:
    wide = float(plan.widest[plan.m])
    return Step("board", wide, f"accept a board {plan.size(wide)} wide, the widest that mount {plan.mount} carries")


def _another(plan: Plan) -> Iterator[Step]:
    yield from _post_steps(plan)
    p, i = plan.posts, plan.i
    need = float(p.target[i] + p.court_rise[i] - p.height[i])
    if abs(need) < LEVEL:
        reach = "carries the ring level with the post's top"
    elif need > 0:
        reach = f"carries the ring at least {plan.at_least(need)} above the post's top"
    else:
        reach = f"carries the ring at most {plan.at_most(-need)} below the post's top"
    text = f"find a mount for {plan.shape} posts of {plan.size(p.size[i])} that {reach}; the catalogue has none that would do"
    yield Step("mount", need, text)


def _replace(plan: Plan) -> Iterator[Step]:
    p, i, m, mounts = plan.posts, plan.i, plan.m, plan.catalogue.mounts
    stand = float(p.target[i] + p.court_rise[i] - lift(mounts)[m])
    post = f"a straight, sound {SHAPES[mounts.shape[m]]} post of {plan.window(mounts.size_least[m], mounts.size_most[m])}"
    text = f"replace the post{_because(plan)} by {post}, standing at least {plan.at_least(stand)} above the ground"
    yield Step("replace", stand, text)
    if plan.narrow:
        yield _narrower(plan)


def _because(plan: Plan) -> str:
    """What no work on the post itself puts right."""
    p, i = plan.posts, plan.i
    wrong = {
        "a gooseneck": p.line[i] == LINES.index("gooseneck"),
        "corroded": p.condition[i] == CONDITIONS.index("corroded"),
        "cracked": p.condition[i] == CONDITIONS.index("cracked"),
        "portable": p.base[i] == BASES.index("portable"),
        "neither round nor square": p.shape[i] == SHAPES.index("other"),
        "refused by an engineer": p.cleared[i] == REFUSED,
    }
    faults = [word for word, true in wrong.items() if true]
    return f", which is {joined(faults)},"


def _instead(plan: Plan, steps: tuple[Step, ...]) -> str:
    """A lower ring height that is reachable, where the post is only too short."""
    if math.isnan(plan.reach) or not any(s.kind == "extension" for s in steps):
        return ""
    rest = "" if len(steps) == 1 else ", with the rest of it done"
    return f" Or accept a ring at {plan.at_most(plan.reach)}, which mount {plan.mount} reaches without an extension{rest}."


def _serves(plan: Plan, steps: tuple[Step, ...]) -> str:
    """What the catalogue would have to offer, in SI, for counting over posts."""
    post = f"{plan.shape} {plan.posts.size[plan.i] * 1000:.1f} mm"
    for s in steps:
        if s.kind == "extension":
            return f"extension of {math.ceil(s.amount * 1000 - 1e-6) / 1000:.3f} m on {post}"
        if s.kind == "mount":
            return f"mount for {post}"
    return ""
