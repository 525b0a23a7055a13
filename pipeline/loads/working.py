"""The working of one kit on one post, line by line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pipeline.loads.model import LoadInputs, Step


def working(k: LoadInputs, policy: Mapping[str, Any]) -> tuple[Step, ...]:
    """Every term of the screen for ONE kit (k = 1), in the order in which it is worked out.

    k: one kit, arrays (1,); policy: SI settings. Range: as `screen`.
    Source: each step names its own.
    """
    if k.size.shape != (1,):
        raise ValueError(f"working() takes one kit, not {k.size.size}")
    return ()
