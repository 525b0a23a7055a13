"""What a reader does with a file. Imported by the child alone, so that it has all it needs before the first file comes."""

from __future__ import annotations

from pipeline.intake.dictionary import Dictionary
from pipeline.intake.survey.check import read_path
from pipeline.intake.taken import Taken
from pipeline.reading.answers import ANSWERS, answer


def take_path(path: str, file: str, said: Dictionary) -> Taken:
    """Read the file at `path` with the seller's dictionary; UnreadableFileError only where the memory does not suffice."""
    taken = read_path(path, file, said)
    if taken.queries and taken.queries[0].message == ANSWERS["memory"][0]:
        raise answer("memory")  # an error, so that the sandbox may try again with more memory
    return taken
