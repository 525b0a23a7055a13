"""The rough installed load of the kit on the post, term by term: formula, numbers with their units, result, source."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from pipeline.explaining.case import Case
from pipeline.explaining.layout import heading, item, number, paragraph
from pipeline.loads.load_arrays import LoadInputs, Step
from pipeline.loads.sensitivities import INPUTS, sensitivities, widest_within
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
    inputs = load_inputs(case.answer.posts, case.catalogue, case.answer.fit, items)
    for step in working(inputs, case.policy):
        yield from _step_lines(step)
    yield from changes(case, inputs)
    yield ""
    yield from paragraph(CAUTION)


def changes(case: Case, inputs: LoadInputs) -> Iterator[str]:
    """What would change the answer: each figure of the sheet Loads that is not in the working above."""
    k, p = case.answer.kits, case.answer.posts
    post = k.post[case.kit]
    found = sensitivities(inputs, case.policy, p.size_uncertainty[[post]], float(case.policy["lean_limit"]))
    worst = np.maximum(k.load["utilisation_play"], k.load["utilisation_storm"])
    widest = widest_within(k.post, case.catalogue.boards.width[k.board], worst, len(p))[post]
    yield from heading("What would change the answer")
    yield from paragraph("The worse share of strength, play or storm, worked out again with one number changed:")
    rows = (
        ("Now", float(worst[case.kit]), "of strength"),
        ("A quarter of the wall gone", float(found.rusted[0]), "of strength"),
        ("Steel of 25 ksi", float(found.soft[0]), "of strength"),
        ("Wind speed x 1.13", float(found.windier[0]), "of strength"),
        ("Is 1 at a wind of", float(found.wind_limit[0]), "m/s"),
        ("Widest board within 0.8", float(widest), "m"),
        *(
            (f"Moves by, {name.replace('_', ' ')}", float(s), "of strength")
            for name, s in zip(INPUTS, found.swings[0], strict=True)
        ),
    )
    for label, value, unit in rows:
        yield from item(label, f"{number(float(f'{value:.6g}'))} {unit}" if math.isfinite(value) else number(value), indent=4)
    yield from paragraph("Source: house rule; the screen above, once a change.")


def _step_lines(step: Step) -> Iterator[str]:
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
