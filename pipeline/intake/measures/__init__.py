"""The one grammar for what people type: measures, pipe sizes, slopes, counts, money, units of headings.

Every public function answers with a value or with a `Doubt`; none raises, and none guesses.
"""

from __future__ import annotations

from pipeline.intake.measures.counts import read_decimal, read_whole
from pipeline.intake.measures.heading_units import format_unit, heading_unit
from pipeline.intake.measures.measure import Doubt, Measure, PipeSize
from pipeline.intake.measures.read import read_lengths, read_measure
from pipeline.intake.measures.sizes import read_post_size

__all__ = [
    "Doubt",
    "Measure",
    "PipeSize",
    "format_unit",
    "heading_unit",
    "read_decimal",
    "read_lengths",
    "read_measure",
    "read_post_size",
    "read_whole",
]
