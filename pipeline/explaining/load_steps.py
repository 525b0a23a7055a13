"""The rough installed load of the kit on the post, term by term: formula, numbers with their units, result, source."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from pipeline.explaining.case import Case
from pipeline.explaining.layout import heading, item, number, paragraph
from pipeline.loads.load_arrays import Step
from pipeline.loads.working import working
from pipeline.rules.kits import Items, load_inputs
from schemas.words import CAUTION, NOT_LOOKED_AT


def loads(case: Case) -> Iterator[str]:
    """Every term of the screen for the kit that is looked at; with it what is not looked at, and the caution."""
    k, n = case.answer.kits, [case.kit]
    items = Items(k.post[n], k.mount[n], k.board[n], k.ring[n])
    yield from heading("Rough installed load, term by term")
    yield from paragraph(CAUTION)
    yield from paragraph(NOT_LOOKED_AT)
    with np.errstate(all="ignore"):
        steps = working(load_inputs(case.answer.posts, case.catalogue, case.answer.fit, items), case.policy)
    for step in steps:
        yield from _told(step)
    yield ""
    yield from paragraph(CAUTION)


def _told(step: Step) -> Iterator[str]:
    yield ""
    yield from paragraph(f"{step.what}: {result(step)}")
    yield from item("formula", step.formula, indent=4, width=9)
    if step.numbers:
        yield from item("with", numbers(step), indent=4, width=9)
    yield from item("source", step.source, indent=4, width=9)


def result(step: Step) -> str:
    """The result with its unit."""
    if math.isnan(step.result):
        return "not known, or not asked"
    figure = number(step.result)
    return f"{figure} {step.unit}".rstrip() + (" (too slender for this screen)" if math.isinf(step.result) else "")


def numbers(step: Step) -> str:
    """The numbers put in, each with its unit."""
    return ", ".join(f"{name} = {_put(value, unit)}" for name, value, unit in step.numbers)


def _put(value: float | str, unit: str) -> str:
    """A number as a reader copies it, with six significant digits; a word as it is."""
    if isinstance(value, str):
        return value
    return "not known" if math.isnan(value) else f"{value:.6g} {unit}".rstrip()
