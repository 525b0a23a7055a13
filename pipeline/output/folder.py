"""Files of the output folder: written whole or not at all, by a temporary file and a rename."""

from __future__ import annotations

import errno
import hashlib
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

PART = ".part"
"""Ending of a file that is being written; a run that is killed may leave one, and the next run removes it."""


class NotWrittenError(Exception):
    """A file that could not be written; the message says which and why in plain words."""


def digest(data: bytes) -> str:
    """SHA-256 of bytes, as hexadecimal text."""
    return hashlib.sha256(data).hexdigest()


def file_digest(path: Path) -> str:
    """SHA-256 of a file's bytes; '' where there is no such file."""
    try:
        with path.open("rb") as f:
            return hashlib.file_digest(f, "sha256").hexdigest()
    except (FileNotFoundError, IsADirectoryError, NotADirectoryError):
        return ""
    except OSError:
        return "unreadable"


def is_torn(path: Path) -> bool:
    """Whether a file holds nothing, or nothing but zeros: what a loss of power leaves, and no person's work."""
    try:
        with path.open("rb") as f:
            return not any(f.read(1 << 16))
    except OSError:
        return False


def write_whole(path: Path, data: bytes, within: Path | None = None) -> None:
    """Put `data` at `path` whole; NotWrittenError where that fails, and then what stood there still stands.

    Folders are made on the way, but none outside `within`: an output folder that has gone is not begun anew halfway.
    """
    if within is not None and not within.is_dir():
        raise NotWrittenError(f"{path} could not be written: {in_words(FileNotFoundError())}.")
    with written_whole(path) as f:
        f.write(data)


@contextmanager
def written_whole(path: Path) -> Iterator[BinaryIO]:
    """A file to write to that takes the place of `path` when the block ends well, and vanishes when it does not.

    No wait for the disk: a file that a loss of power emptied shows by its hash, and the next run makes it again.
    """
    part = path.with_name(f".{path.name}{PART}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with part.open("wb") as f:
            yield f
        part.replace(path)
    except OSError as error:
        _remove(part)
        raise NotWrittenError(f"{path} could not be written: {in_words(error)}.") from error
    except BaseException:
        _remove(part)
        raise


def _remove(path: Path) -> None:
    """Remove a file as far as that can be done."""
    with suppress(OSError):
        path.unlink()


def in_words(error: OSError) -> str:
    """An operating system's error as a plain phrase."""
    if isinstance(error, PermissionError):
        return "it is open in another program, or you may not write there; close it and run again"
    if error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
        return "the disk is full; make room and run again"
    if error.errno == errno.EROFS:
        return "the disk can only be read; choose another folder with --out"
    if isinstance(error, IsADirectoryError):
        return "a folder stands in its place; move that away and run again"
    if isinstance(error, FileNotFoundError):
        return "the folder has gone; run again"
    return (error.strerror or "the system refused").lower()


def remove_parts(folder: Path) -> None:
    """Remove what a killed run left half written."""
    for part in folder.rglob(f".*{PART}"):
        _remove(part)


def remove_file(folder: Path, path: str) -> None:
    """Remove a file of the output folder, and the folders that it leaves empty. Errors: OSError."""
    place = folder / path
    place.unlink(missing_ok=True)
    for parent in place.parents:
        if parent == folder:
            break
        with suppress(OSError):  # not empty
            parent.rmdir()
