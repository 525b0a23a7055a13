"""What a reader does with a file. Imported by the child alone, so that it has all it needs before the first file comes."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from pipeline.intake.dictionary import Dictionary
from pipeline.intake.survey.check import read_hashed_file
from pipeline.intake.taken import Taken
from pipeline.units import take_factors


def take_path(path: str, file: str, seller_words: Dictionary, factors: Mapping[tuple[str, str], Fraction]) -> Taken:
    """Read the file at `path` with the seller's dictionary and the parent's factors of units. Errors: UnreadableFileError."""
    take_factors(factors)
    return read_hashed_file(path, file, seller_words)
