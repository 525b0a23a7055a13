"""Files of the output folder: written whole or not at all, by a temporary file and a rename."""

from __future__ import annotations

import errno
import hashlib
import io
import os
import stat
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

from pipeline.errors import NotWrittenError as NotWrittenError

_NO_LINK, _NO_WAIT = (getattr(os, name, 0) for name in ("O_NOFOLLOW", "O_NONBLOCK"))

PART = ".postquote-part"
"""Ending of a file that is being written; a run that is killed may leave one, and the next run removes it."""


def digest(data: bytes) -> str:
    """SHA-256 of bytes, as hexadecimal text."""
    return hashlib.sha256(data).hexdigest()


def open_plain(path: Path | str) -> io.BufferedReader:
    """An ordinary file, open for reading: no link is followed, and no pipe or device waited for. Errors: OSError."""
    fd = os.open(path, os.O_RDONLY | _NO_LINK | _NO_WAIT | getattr(os, "O_BINARY", 0))
    try:
        mode = os.fstat(fd).st_mode
        if stat.S_ISDIR(mode):
            raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
        if not stat.S_ISREG(mode):
            raise OSError(errno.EINVAL, "it is no file", str(path))
        return os.fdopen(fd, "rb")
    except BaseException:
        os.close(fd)
        raise


def file_digest(path: Path | str) -> str:
    """SHA-256 of a file's bytes; '' where there is no such file, 'unreadable' where it is none or may not be read."""
    try:
        with open_plain(path) as f:
            return hashlib.file_digest(f, "sha256").hexdigest()
    except (FileNotFoundError, IsADirectoryError, NotADirectoryError):
        return ""
    except OSError:
        return "unreadable"


def is_torn(path: Path) -> bool:
    """Whether a file holds nothing, or nothing but zeros: what a loss of power leaves, and no person's work."""
    try:
        with open_plain(path) as f:
            return not any(f.read(1 << 16))
    except OSError:
        return False


def require_plain(path: Path, within: Path | None = None) -> None:
    """NotWrittenError unless nothing stands at `path` or an ordinary file, in ordinary folders all the way from `within`."""
    for place in (*_between(path, within), path):
        try:
            mode = place.lstat().st_mode
        except (FileNotFoundError, NotADirectoryError):
            continue
        except OSError as error:
            raise NotWrittenError(f"{path} could not be written: {in_words(error)}.") from error
        if not (stat.S_ISDIR(mode) or (place == path and stat.S_ISREG(mode))):
            what = "a link" if stat.S_ISLNK(mode) else "no file or folder of ours"
            raise NotWrittenError(f"{path} was not written: {place} is {what}. Move it away and run again.")


def _between(path: Path, within: Path | None) -> list[Path]:
    """The folders between `within` and `path`, the outer ones first."""
    if within is None:
        return []
    inner = path.relative_to(within).parts[:-1]
    return [within.joinpath(*inner[: n + 1]) for n in range(len(inner))]


def write_whole(path: Path, data: bytes, within: Path | None = None) -> None:
    """Put `data` at `path` whole; NotWrittenError where that fails, and then what stood there still stands.

    Folders are made on the way, but none outside `within`: an output folder that has gone is not begun anew halfway.
    """
    if within is not None and not within.is_dir():
        raise NotWrittenError(f"{path} could not be written: {in_words(FileNotFoundError())}.")
    with written_whole(path, within) as f:
        f.write(data)


@contextmanager
def written_whole(path: Path, within: Path | None = None) -> Iterator[BinaryIO]:
    """A file to write to that takes the place of `path` when the block ends well, and vanishes when it does not.

    No wait for the disk: a file that a loss of power emptied shows by its hash, and the next run makes it again.
    """
    require_plain(path, within)
    part = part_of(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        _remove(part)
        with part.open("xb") as f:
            yield f
        part.replace(path)
    except OSError as error:
        _remove(part)
        raise NotWrittenError(f"{path} could not be written: {in_words(error)}.") from error
    except BaseException:
        _remove(part)
        raise


def part_of(path: Path) -> Path:
    """Where a file is written before it takes its place."""
    return path.with_name(f".{path.name}{PART}")


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


def remove_parts(folder: Path, paths: Iterable[str]) -> None:
    """Remove what a killed run left half written of the files that it was about to write."""
    for path in paths:
        place = folder / path
        with suppress(NotWrittenError):
            require_plain(place, folder)
            _remove(part_of(place))


def remove_file(folder: Path, path: str) -> None:
    """Remove a file of the output folder, and the folders that it leaves empty. Errors: OSError, NotWrittenError."""
    place = folder / path
    require_plain(place, folder)
    place.unlink(missing_ok=True)
    for parent in place.parents:
        if parent == folder:
            break
        with suppress(OSError):  # not empty
            parent.rmdir()
