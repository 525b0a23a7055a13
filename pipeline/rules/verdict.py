"""Three-valued answers, and the verdict that follows from them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from pipeline.rules.arrays import (
    CONFIRM,
    FAIL,
    NOT_VIABLE,
    PASS,
    VIABLE,
    VIABLE_CONFIRM,
    VIABLE_EXTENDED,
    Bools,
    Finding,
    Floats,
    Ints,
    States,
)
from schemas.words import FINDING_CODES

NOTHING: Floats = np.full((1, 1), np.nan)
"""Where a rule has no such number."""


def answer(passes: Bools, confirms: Bools, known: Bools | bool = True) -> States:
    """Pass where `passes`, else confirm where `confirms`, else fail; confirm where not `known`.

    A comparison with a missing number is False, so without `known` it would fail silently.
    """
    decided = np.where(passes, PASS, np.where(confirms, CONFIRM, FAIL))
    return np.where(known, decided, CONFIRM).astype(np.int8)


def doubtful(state: States, doubt: Bools) -> States:
    """The answer, but a confirm for a pass where `doubt`: what could not be read never passes."""
    return np.where(doubt & (state == PASS), CONFIRM, state).astype(np.int8)


def limited(value: Floats, least: Floats, most: Floats) -> Floats:
    """Distance inside (positive) or outside (negative) the nearer limit; NaN limits count for nothing."""
    return np.fmin(value - least, most - value)


def finding(
    code: str,
    state: States,
    value: Floats = NOTHING,
    least: Floats = NOTHING,
    most: Floats = NOTHING,
    unit: str = "",
) -> Finding:
    """The finding with its margin worked out from value and limits."""
    return Finding(code, state, value, least, most, limited(value, least, most), unit)


def verdict(findings: Sequence[Finding], extended: Bools) -> States:
    """Verdict of each pair: any fail, else an extension, else any confirm, else viable.

    `findings` have states (n, m), (n, 1) or (1, m); `extended` (n, m) is True where an extension is
    needed and found. Source: contract section 1, verdict.
    """
    worst = np.zeros(extended.shape, dtype=np.int8)
    for f in findings:
        np.maximum(worst, f.state, out=worst)
    soft = np.where(extended, VIABLE_EXTENDED, np.where(worst == CONFIRM, VIABLE_CONFIRM, VIABLE))
    return np.where(worst == FAIL, NOT_VIABLE, soft).astype(np.int8)


def bits(findings: Sequence[Finding], state: int, shape: tuple[int, ...]) -> Ints:
    """Bit i set where finding FINDING_CODES[i] has `state`; an array of `shape`."""
    out = np.zeros(shape, dtype=np.int64)
    for f in findings:
        out |= (f.state == state).astype(np.int64) << FINDING_CODES.index(f.code)
    return out


def codes(mask: int | npt.NDArray[np.int64]) -> tuple[str, ...]:
    """The finding codes whose bits are set, in the order in which files list them."""
    return tuple(code for i, code in enumerate(FINDING_CODES) if int(mask) >> i & 1)
