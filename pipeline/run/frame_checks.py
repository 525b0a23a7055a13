"""The catalogue held to its frames' models, beside the run: what is heavy to load must not keep it waiting."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any


def check_frames(tables: Mapping[str, Sequence[Mapping[str, Any]]]) -> None:
    """Hold the tables to their pandera models: what passed the reader and breaks a model is a fault of ours."""
    from schemas.catalogue import CATALOGUE
    from schemas.frames import check, frame
    from schemas.policy import POLICY

    for table in CATALOGUE:
        if table.name != POLICY.name:
            check(frame(tables.get(table.name, ()), table), table)
