"""The files of what was given on the command line: folders walked, odd things answered."""

from __future__ import annotations

import hashlib
import os
import re
import stat
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from pipeline.errors import RefusedError
from pipeline.reading.answers import ANSWERS
from pipeline.reading.book import UnreadableFileError
from pipeline.reading.text_values import printable

_LEFT_OUT = {"thumbs.db", "desktop.ini", "__macosx"}  # what desktop programs leave in folders


class NoSurveyError(RefusedError):
    """A survey argument that is not there."""


@dataclass(frozen=True, slots=True)
class Found:
    """One file: where it is, the name to show, and why it must not be opened ('' where it may)."""

    path: str
    name: str
    reason: str = ""
    remedy: str = ""

    @property
    def unreadable(self) -> UnreadableFileError | None:
        """The answer for a thing that must not be opened; None for a file."""
        return UnreadableFileError(self.reason, self.remedy) if self.reason else None


def find_surveys(arguments: Sequence[str], without: Iterable[str] = ()) -> list[Found]:
    """Every file of the arguments, each once, in order of the arguments and then of the names.

    A folder is read through; hidden and lock files, and folders in `without` (the output folder,
    say), are left out, and so are links to what the folder holds anyway. `name` is relative to the
    folder given, with forward slashes; names that two arguments share get folders in front. A folder that
    holds the results of a run is left out. Raises NoSurveyError for an argument that is not there, or holds results.
    """
    skipped = {os.path.realpath(p) for p in without}
    found: list[tuple[Found, str]] = []
    seen: set[str] = set()
    for argument in arguments:
        for item, root in _of_argument(argument, skipped):
            real = os.path.realpath(item.path) if not item.reason else os.path.abspath(item.path)
            if real not in seen:
                seen.add(real)
                found.append((item, root))
    return _distinct(found)


def _of_argument(argument: str, skipped: set[str]) -> Iterator[tuple[Found, str]]:
    """What one argument names, each with the folder that its name is relative to."""
    try:
        mode = os.stat(argument).st_mode
    except (OSError, ValueError) as e:
        raise NoSurveyError(f"There is no file or folder “{_shown(argument)}”.") from e
    if stat.S_ISDIR(mode):
        root = os.path.realpath(argument)
        if is_results(root):
            message = "holds the results of a run and no surveys. Name the folder that the surveys came in."
            raise NoSurveyError(f"“{_shown(argument)}” {message}")
        yield from ((item, root) for item in _walk(root, skipped))
    else:
        name, path = _shown(os.path.basename(argument)), os.path.realpath(argument)
        yield _answered(path, name, "" if stat.S_ISREG(mode) else "not a file"), os.path.dirname(os.path.abspath(argument))


def _walk(root: str, skipped: set[str]) -> Iterator[Found]:
    """Files below a folder in order of their names; nothing is opened and no link is followed."""
    pending: list[Found | os.DirEntry[str]] = list(reversed(_listed(root, root)))
    while pending:  # a stack and no recursion: a hostile folder may be nested a thousand deep
        entry = pending.pop()
        if isinstance(entry, Found):
            yield entry
        elif _is_left_out(entry):
            continue
        elif entry.is_symlink():
            yield from _link(entry.path, root)
        elif entry.is_dir(follow_symlinks=False):
            if os.path.realpath(entry.path) not in skipped and not is_results(entry.path):
                pending.extend(reversed(_listed(entry.path, root)))
        else:
            regular = entry.is_file(follow_symlinks=False)
            yield _answered(entry.path, _name(entry.path, root), "" if regular else "not a file")


def _listed(folder: str, root: str) -> list[Found | os.DirEntry[str]]:
    """What stands in a folder, in order of the names; the answer where it may not be opened."""
    try:
        with os.scandir(folder) as listing:
            return sorted(listing, key=lambda e: e.name)
    except OSError:
        return [_answered(folder, _name(folder, root), "folder")]


def _is_left_out(entry: os.DirEntry[str]) -> bool:
    """Hidden files and folders, lock files of open workbooks, leavings of desktop programs."""
    return entry.name.startswith((".", "~$")) or entry.name.lower() in _LEFT_OUT


def _link(path: str, root: str) -> Iterator[Found]:
    """A link is never opened: it is answered, unless what it names is read from its own place."""
    target = os.path.realpath(path)
    if not os.path.exists(target):
        yield _answered(path, _name(path, root), "dead link")
    elif not (target == root or target.startswith(root.rstrip(os.sep) + os.sep)):
        yield _answered(path, _name(path, root), "link")


def _answered(path: str, name: str, key: str) -> Found:
    return Found(path, name, *(ANSWERS[key] if key else ("", "")))


def _name(path: str, root: str) -> str:
    return _shown(os.path.relpath(path, root).replace(os.sep, "/"))


def _shown(name: str) -> str:
    """A name that fits on one line of any screen or file."""
    return re.sub(r"[\t\r\n]", "\ufffd", printable(name))


def _distinct(found: list[tuple[Found, str]]) -> list[Found]:
    """The same files under names of which no two are alike, whatever their places in the list.

    Names that several arguments share get as many of their folders in front as it takes, below what all have in common.
    Names that are alike only because they cannot be shown get a mark made from what cannot be.
    """
    names = [item.name for item, _ in found]
    shared = _shared(names)
    if shared:
        roots = [os.path.abspath(found[i][1]) for i in shared]
        common = os.path.commonpath(roots)
        for i, root in zip(shared, roots, strict=True):
            head = os.path.relpath(root, common).replace(os.sep, "/")
            names[i] = f"{_shown(head)}/{names[i]}" if head != "." else names[i]
    for i in _shared(names):
        raw = os.path.relpath(found[i][0].path, found[i][1]).encode("utf-8", "surrogateescape")
        names[i] = f"{names[i]} ({hashlib.sha256(raw).hexdigest()[:8]})"
    return [replace(item, name=name) for (item, _), name in zip(found, names, strict=True)]


def _shared(names: Sequence[str]) -> list[int]:
    """Places of the names that stand there more than once."""
    at: dict[str, list[int]] = {}
    for i, name in enumerate(names):
        at.setdefault(name, []).append(i)
    return [i for places in at.values() if len(places) > 1 for i in places]


def is_results(folder: str) -> bool:
    """Whether a folder holds the results of a run: its list of counts is ours, or its ledger is there with our lock."""
    if b'"program": "postquote' in _head(os.path.join(folder, "run.json")):
        return True
    ledger = _head(os.path.join(folder, "ledger.sqlite"))
    return ledger.startswith(b"SQLite format 3") and os.path.lexists(os.path.join(folder, ".lock"))


def _head(path: str) -> bytes:
    """The first bytes of an ordinary file; none where there is none."""
    try:
        if not stat.S_ISREG(os.lstat(path).st_mode):
            return b""
        with open(path, "rb") as f:
            return f.read(200)
    except OSError:
        return b""
