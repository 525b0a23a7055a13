"""Rows of sites worked out in blocks of limited size, whatever a site's, and what each block came to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Any

import numpy as np

from pipeline.intake.query import Query
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.loads.formulas import Values
from pipeline.money.prices import minor_unit
from pipeline.rules.advice import advice
from pipeline.rules.arrays import Catalogue, Floats, Ints, Remedy
from pipeline.rules.asked import apart, refusals
from pipeline.rules.choice import Want
from pipeline.rules.kits import recommended
from pipeline.rules.plain import FEET, METRIC
from pipeline.rules.remedy import remedies, widest_board
from pipeline.rules.wanted import needs
from pipeline.sheets.report import PostReport
from pipeline.site.assemble import asked_of
from pipeline.site.compute import Answer, rounded, work_out
from pipeline.site.data_lines import fit_lines, kit_lines
from pipeline.site.decided import want_of
from pipeline.site.figures import figures
from pipeline.site.recommended_loads import recommended_loads
from pipeline.site.remarks import taken
from pipeline.site.reporter import Reporter
from pipeline.site.shown_units import shown_in_feet
from pipeline.site.summary import Reach, reach_of
from pipeline.site.task import Figures, Promise, SiteTask, World
from schemas.words import LOAD_STATES

MOST_ROWS = 512
"""Rows that are worked out at once: what a site of twenty thousand posts needs is bounded by it. Source: measured."""

Part = list[tuple[int, Sequence[SurveyRow]]]
"""Rows that are worked out at once: number of the task, and some of its rows."""


def parts_of(tasks: Sequence[SiteTask]) -> Iterator[Part]:
    """The rows of all tasks, at most MOST_ROWS at once; each task has a place in some part."""
    part: Part = []
    room = MOST_ROWS
    for number, task in enumerate(tasks):
        for start in range(0, max(1, len(task.rows)), MOST_ROWS):
            rows = task.rows[start : start + MOST_ROWS]
            if len(rows) > room:
                yield part
                part, room = [], MOST_ROWS
            part.append((number, rows))
            room -= len(rows)
    yield part


def bounds_of(part: Part) -> list[int]:
    """Where the rows of each task begin among those of the part, and where the last ones end."""
    return [0, *accumulate(len(rows) for _, rows in part)]


@dataclass(frozen=True)
class Block:
    """What some rows of one site came to."""

    posts: tuple[PostReport, ...]
    remedies: tuple[Remedy, ...]
    asked: tuple[Query, ...]
    reach: Reach
    figures: Figures
    lines: dict[str, str]  # of mount_fit and kits
    promised: dict[str, str]  # of a promised site: post -> load state of its promised kit, '' where it cannot be had


def blocks_of(tasks: Sequence[SiteTask], world: World) -> list[list[Block]]:
    """The blocks of each task's rows."""
    made: list[list[Block]] = [[] for _ in tasks]
    for part in parts_of(tasks):
        for (number, _), block in zip(part, _worked_out(part, tasks, world), strict=True):
            made[number].append(block)
    return made


def _worked_out(part: Part, tasks: Sequence[SiteTask], world: World) -> Iterator[Block]:
    rows = [row for _, some in part for row in some]
    sites = [tasks[number].site_code for number, some in part for _ in some]
    bounds, digits = bounds_of(part), -int(minor_unit(world.policy["currency"]).as_tuple().exponent)
    wants = [want for number, some in part for want in [_want(tasks[number], world)] * len(some)]
    units = [units_of_site for number, some in part for units_of_site in [_units(tasks[number], world)] * len(some)]
    answer = work_out(rows, world.catalogue, world.policy, wants, units)
    loads, shown = recommended_loads(answer, world), rounded(answer)
    words, reporter = _words(rows, answer, loads.values, world), Reporter(rows, shown, loads, world, digits)
    fit = fit_lines(rows, sites, shown, world.catalogue, bounds)
    kits = kit_lines(rows, sites, shown, world.catalogue, bounds, digits)
    for n, (start, stop) in enumerate(pairwise(bounds)):
        numbers = range(start, stop)
        posts = tuple(_post(i, rows[i], reporter, words, int(answer.group[i]), world) for i in numbers)
        quantity = np.array([p.quantity for p in posts], dtype=np.int64)
        yield Block(
            posts,
            tuple(words["remedy"][answer.group[i]] for i in numbers),
            tuple(q for i in numbers for q in asked_of(rows[i], words["refusals"][i])),
            reach_of(numbers, quantity, answer, world.catalogue, words["lacking"]),
            figures(rows[start:stop], start, answer, world),
            {"mount_fit": fit[n].decode(), "kits": kits[n].decode()},
            _promised(tasks[part[n][0]].promise, rows, numbers, answer, world.catalogue),
        )


def _promised(promise: Promise | None, rows: Sequence[SurveyRow], numbers: range, answer: Answer, c: Catalogue) -> dict[str, str]:
    """Load state of the promised kit of each post, '' where it cannot be had."""
    if promise is None:
        return {}
    says, k = promise.content["says"]["posts"], answer.kits
    tables = ((k.mount, c.mounts.code), (k.board, c.boards.code), (k.ring, c.rings.code), (k.extension, c.extensions.code))
    states = {}
    for i in numbers:
        if kit := says.get(rows[i].post_code, {}).get("kit"):
            here = np.arange(*answer.start[answer.group[i] : answer.group[i] + 2])
            for (of, listed), code in zip(tables, kit, strict=True):
                here = here[of[here] == (listed.index(code) if code in listed else -1)]
            states[rows[i].post_code] = LOAD_STATES[int(k.load["load_state"][here[0]])] if len(here) else ""
    return states


def _want(task: SiteTask, world: World) -> Want:
    return want_of(task.customer, task.decided, world.catalogue)


def _units(task: SiteTask, world: World) -> int:
    return FEET if shown_in_feet(task, world.policy) else METRIC


def _post(i: int, row: SurveyRow, reporter: Reporter, words: dict[str, Any], group: int, world: World) -> PostReport:
    notes = [(n.about, n.sentence, n.source) for n in words["advice"][group]]
    return reporter.post(i, words["remedy"][group].sentence, notes, taken(row, world))


def _words(rows: Sequence[SurveyRow], answer: Answer, loads: Values, world: World) -> dict[str, Any]:
    """Remedy and advice for each different post, refusals for each row."""
    has_kit = answer.start[1:] > answer.start[:-1]
    a, c = answer, world.catalogue
    best = recommended(a.kits, len(a.posts))
    notes = advice(a.posts, c, a.kits, best, _frequency(best, loads))
    return {
        "remedy": remedies(a.posts, c, a.fit, world.policy, has_kit),
        "lacking": needs(a.posts, c, a.fit, world.policy, has_kit, widest_board(c)),
        "refusals": refusals(rows, a.posts, c, a.fit, a.kits, group=a.group),
        "advice": [(*some, *more) for some, more in zip(notes, apart(a.posts, a.kits), strict=True)],
    }


def _frequency(best: Ints, loads: Values) -> Floats:
    """Natural frequency of each different post with its recommended kit [Hz], NaN where it has none."""
    out = np.full(len(best), np.nan)
    out[best >= 0] = loads["f"]
    return out
