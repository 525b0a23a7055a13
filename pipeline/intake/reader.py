"""What a reader does with a file. Imported by the child alone, so that it has all it needs before the first file comes."""

from __future__ import annotations

from pipeline.intake.dictionary import Dictionary
from pipeline.intake.survey.check import read_hashed_file
from pipeline.intake.taken import Taken


def take_path(path: str, file: str, said: Dictionary) -> Taken:
    """Read the file at `path` with the seller's dictionary. Errors: UnreadableFileError."""
    return read_hashed_file(path, file, said)
