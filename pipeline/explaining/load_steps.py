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

UNITS: dict[str, str] = {
    "A": "m2", "Cf": "", "D": "m", "D_m": "m", "E": "Pa", "F": "N", "F_x": "N", "Fy": "Pa", "G": "", "H": "m", "I": "m4",
    "B": "", "K_L_over_r": "", "Kd": "", "Kz": "", "L": "m", "M": "N m", "M_B": "N m", "M_D": "N m", "M_J": "N m", "M_L": "N m",
    "M_N": "N m", "M_NL": "N m", "M_P": "N m", "M_S": "N m", "M_W": "N m", "Mc": "N m", "P": "N", "Pc": "N", "Pe": "N",
    "S": "m3", "V": "m/s", "W": "N", "Z": "m3", "added": "m", "alpha": "", "b": "m", "board": "kg", "c": "m", "carried": "N",
    "e_b": "m", "e_m": "m", "e_r": "m", "extension": "kg", "factor": "", "footing": "m", "g": "m/s2", "hang": "N m",
    "height": "m", "k": "Pa/m", "lambda_": "", "lean": "rad", "m": "kg", "mount": "kg", "overhang": "m", "own": "N", "p": "Pa",
    "play": "of strength", "push": "N m", "q": "Pa", "rated": "N m", "ring": "kg", "soil_class": "", "stated": "m",
    "storm": "N m", "t": "m", "upper_size": "m", "wall": "m", "width": "m", "wind": "N", "z": "m", "z_b": "m", "z_r": "m",
    "z_top": "m", "zg": "m",
}  # fmt: skip
"""SI unit of each number that is put into a step, by its name; '' is a plain number."""

_WHERE: dict[tuple[str, str], str] = {
    ("V", "m"): "N",  # the lateral force on the footing, not the wind's speed
    ("push", "N"): "N",  # the push itself, not its moment
    ("storm", "of strength"): "of strength",
}
"""Units that depend on the unit of the step's result."""

_WORDS = ("exposure", "driven", "base_plate", "why")
"""What is put in as a word."""


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
    figure = number(float(f"{step.result:.9g}"))
    return f"{figure} {step.unit}".rstrip() + (" (too slender for this screen)" if math.isinf(step.result) else "")


def numbers(step: Step) -> str:
    """The numbers put in, each with its unit."""
    return ", ".join(f"{name} = {_with_unit(name, value, step)}" for name, value in pairs(step))


def pairs(step: Step) -> Iterator[tuple[str, str]]:
    """Names and values of what is put in."""
    for part in step.numbers.split(", "):
        name, _, value = part.partition(" = ")
        yield name, value


def _with_unit(name: str, value: str, step: Step) -> str:
    unit = "" if name in _WORDS or value == "not known" else _WHERE.get((name, step.unit), UNITS.get(name, ""))
    return f"{value} {unit}".rstrip()
