"""The size of a post: outside, round the post, or nominal."""

from __future__ import annotations

from pipeline.intake.measures.model import Doubt, Measure, PipeSize
from pipeline.intake.measures.read import read_measure


def read_post_size(value: str | int | float, heading_unit: str = "", basis: str = "") -> Measure | PipeSize | Doubt:
    """A length, or a nominal pipe size."""
    return read_measure(value, "length", heading_unit)
