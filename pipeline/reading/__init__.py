"""Files to cells: formats told by content, read under limits, a hostile file answered in plain words.

`read_book` reads in this process; `Sandbox` runs it, or any work that calls it, in a child process
that may die; `find_surveys` lists the files of what was given on the command line.
"""

from __future__ import annotations

from pipeline.reading.book import Book
from pipeline.reading.found import Found, NoSurveyError, find_surveys
from pipeline.reading.limits import LIMITS, Limits
from pipeline.reading.sandbox import Sandbox

__all__ = ["LIMITS", "Found", "Limits", "NoSurveyError", "Sandbox", "find_surveys", "read_book", "read_hashed"]


def read_book(path: str, *, limits: Limits = LIMITS) -> Book:
    """Cells of one file, whatever its name says it is.

    Raises UnreadableFileError, with sentences for the file's sender, and nothing else.
    """
    from pipeline.reading.formats import read_bytes  # the readers are loaded by the first file

    return read_bytes(path, limits)


def read_hashed(path: str) -> tuple[Book, str]:
    """`read_book`, and the SHA-256 of the very bytes that were read."""
    from hashlib import sha256

    from pipeline.reading.formats import load, read_loaded

    data = load(path, LIMITS)
    return read_loaded(data, path, LIMITS), sha256(data).hexdigest()
