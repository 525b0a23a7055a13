"""Files of the output folder that belong to no single site: written where they differ, a person's edits kept aside."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from pipeline.ledger.store import Ledger, Output
from pipeline.output.folder import NotWrittenError, digest, file_digest, in_words, is_torn, remove_file, written_whole


class _SameError(Exception):
    """What was written stands there already."""


class Shelf:
    """The output folder's common files, by path relative to it."""

    def __init__(self, folder: Path, ledger: Ledger) -> None:
        self._folder = folder
        self._ledger = ledger
        self._before = ledger.outputs()
        self._ours = ledger.pending() | {(path, was.hash) for path, was in self._before.items()}
        self.now: dict[str, Output] = {}
        self.written = 0
        self.failures: list[str] = []
        self.notes: list[str] = []

    def stands(self, path: str, recipe: str) -> bool:
        """Whether the file stands as it was made from the same recipe; then it is kept as it is, edited or not."""
        was = self._before.get(path)
        if was is None or not recipe or was.recipe != recipe:
            return False
        seen = file_digest(self._folder / path)
        if not seen:
            return False
        self.now[path] = Output(was.hash, seen, recipe)
        return True

    def put(self, path: str, data: bytes, recipe: str = "") -> None:
        """Put a file there, unless it stands there already; one that cannot be written is noted."""
        if file_digest(self._folder / path) == digest(data):
            self.now[path] = Output(digest(data), digest(data), recipe)
            return
        self.put_pieces(path, [data], recipe)

    def put_pieces(self, path: str, pieces: Iterable[bytes], recipe: str = "") -> None:
        """The same for a file that is too large to be held in memory."""
        place = self._folder / path
        seen, made = file_digest(place), hashlib.sha256()
        try:
            self._ledger.about_to_write([(path, "")])
            with suppress(_SameError), written_whole(place, self._folder) as f:
                for piece in pieces:
                    f.write(piece)
                    made.update(piece)
                hash_ = made.hexdigest()
                self._ledger.about_to_write([(path, hash_)])
                if seen == hash_:
                    raise _SameError
                self._keep_edited(path, place, seen)
            self.written += seen != hash_
        except NotWrittenError as error:
            self.failures.append(str(error))
            was = self._before.get(path)
            if was is not None:
                self.now[path] = Output(was.hash, file_digest(place), "")
            return
        self.now[path] = Output(hash_, hash_, recipe)

    def clear(self) -> None:
        """Remove what an earlier run, finished or killed, made and this one did not, unless a person has edited it."""
        for path, hash_ in sorted(self._ours):
            place = self._folder / path
            if not hash_ or path in self.now or path.startswith(("sites/", "customers/")) or file_digest(place) != hash_:
                continue
            try:
                remove_file(self._folder, path)
            except NotWrittenError as error:
                self.failures.append(str(error))
            except OSError as error:
                self.failures.append(f"{place} could not be removed: {in_words(error)}.")

    def _keep_edited(self, path: str, place: Path, seen: str) -> None:
        """A file that is not as we left it, or not ours, is put aside under another name, never overwritten."""
        if not seen or (path, seen) in self._ours or is_torn(place):
            return
        number = 1
        while (aside := place.with_name(f"{place.stem}-kept-{number}{place.suffix}")).exists():
            number += 1
        try:
            place.replace(aside)
        except OSError as error:
            raise NotWrittenError(f"{place} could not be replaced: {in_words(error)}.") from error
        self.notes.append(f"{place.name} was edited by hand: it is kept as {aside.name}.")
