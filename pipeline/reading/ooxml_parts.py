"""A zip whose members are looked at before they are opened and counted while they are inflated."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator

from pipeline.reading.answers import answer, damaged
from pipeline.reading.limits import Budget, refuse

_CHUNK = 1 << 16
_ENTRY = b"PK\x01\x02"
_ENCRYPTED = 0x1


class Package:
    """The parts of a zip, found by name without regard to case, leading slash or kind of slash."""

    def __init__(self, data: bytes, budget: Budget) -> None:
        self.budget = budget
        limits = budget.limits
        if data.count(_ENTRY) > limits.members:
            raise refuse(f"more than {limits.members:,} parts")
        try:
            self._zip = zipfile.ZipFile(io.BytesIO(data))
        except Exception as e:  # BadZipFile, struct.error, NotImplementedError, ValueError, ...
            raise answer("damaged") from e
        members = self._zip.infolist()
        if sum(m.file_size for m in members) > limits.all_bytes:
            raise refuse(f"more than {limits.all_bytes // 1_000_000:,} MB once it is unpacked")
        self._exact: dict[str, zipfile.ZipInfo] = {}
        self._folded: dict[str, zipfile.ZipInfo] = {}
        for m in members:
            name = m.filename.replace("\\", "/").lstrip("/")
            if self._exact.setdefault(name, m) is not m:
                raise damaged(f"two parts are called {name[:60]}")
            self._folded.setdefault(name.casefold(), m)

    def find(self, name: str) -> zipfile.ZipInfo | None:
        """The member of that name, or None."""
        name = name.replace("\\", "/").lstrip("/")
        return self._exact.get(name) or self._folded.get(name.casefold())

    def chunks(self, member: zipfile.ZipInfo) -> Iterator[bytes]:
        """A member's bytes piece by piece; raises UnreadableFileError where it grows beyond a limit."""
        limits = self.budget.limits
        if member.flag_bits & _ENCRYPTED:
            raise answer("password")
        if member.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise answer("packing")
        if member.file_size > limits.part_bytes:
            raise refuse(f"a part of {member.file_size // 1_000_000:,} MB")
        size, packed = 0, max(member.compress_size, 1)
        try:
            with self._zip.open(member) as part:
                while chunk := part.read(_CHUNK):
                    size += len(chunk)
                    self.budget.take_bytes(len(chunk))
                    if size > limits.part_bytes:
                        raise refuse(f"a part of more than {limits.part_bytes // 1_000_000:,} MB")
                    if size > limits.ratio_from and size > limits.ratio * packed:
                        raise answer("bomb")
                    yield chunk
        except (zipfile.BadZipFile, EOFError, OSError, NotImplementedError) as e:
            raise answer("damaged") from e

    def read(self, member: zipfile.ZipInfo) -> bytes:
        """A member's bytes, whole."""
        return b"".join(self.chunks(member))

    def mimetype(self) -> str:
        """What an OpenDocument file says it is in its member `mimetype`; '' without one."""
        member = self.find("mimetype")
        if member is None or member.file_size > 200:
            return ""
        return self.read(member).decode("ascii", "replace").strip()
