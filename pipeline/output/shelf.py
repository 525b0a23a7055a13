"""Files of the output folder that belong to no single site: written where they differ, a person's edits kept aside."""

from __future__ import annotations

from pathlib import Path

from pipeline.ledger.store import Ledger, Output
from pipeline.output.folder import NotWrittenError, digest, file_digest, in_words, remove_file, write_whole


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
        hash_, place = digest(data), self._folder / path
        if file_digest(place) != hash_:
            try:
                self._keep_edited(path, place)
                self._ledger.about_to_write([(path, hash_)])
                write_whole(place, data, within=self._folder)
                self.written += 1
            except NotWrittenError as error:
                self.failures.append(str(error))
                was = self._before.get(path)
                if was is not None:
                    self.now[path] = Output(was.hash, file_digest(place), "")
                return
        self.now[path] = Output(hash_, hash_, recipe)

    def note(self, path: str, hash_: str) -> None:
        """A file that was written elsewhere."""
        self.now[path] = Output(hash_, hash_)

    def clear(self) -> None:
        """Remove what an earlier run, finished or killed, made and this one did not, unless a person has edited it."""
        for path, hash_ in sorted(self._ours):
            place = self._folder / path
            if path in self.now or path.startswith("sites/") or file_digest(place) != hash_:
                continue
            try:
                remove_file(self._folder, path)
            except OSError as error:
                self.failures.append(f"{place} could not be removed: {in_words(error)}.")

    def _keep_edited(self, path: str, place: Path) -> None:
        """A workbook that a person has edited is put aside under another name, never overwritten."""
        seen = file_digest(place)
        if place.suffix != ".xlsx" or not seen or (path, seen) in self._ours:
            return
        number = 1
        while (aside := place.with_name(f"{place.stem}-kept-{number}{place.suffix}")).exists():
            number += 1
        try:
            place.replace(aside)
        except OSError as error:
            raise NotWrittenError(f"{place} could not be replaced: {in_words(error)}.") from error
        self.notes.append(f"{place.name} was edited by hand: it is kept as {aside.name}.")
