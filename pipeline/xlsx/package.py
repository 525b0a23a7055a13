"""The parts of a workbook packed into one file; the same parts give the same bytes."""

from __future__ import annotations

import zlib
from collections.abc import Iterable
from functools import lru_cache
from struct import Struct

LEVEL = 2
"""How hard to pack: a tenth larger than the usual level 6, in half of its time. Source: measured."""

_LOCAL = Struct("<4s5H3L2H")
_CENTRAL = Struct("<4s6H3L5H2L")
_END = Struct("<4s4H2LH")
_VERSION, _DEFLATED, _UTF8 = 20, 8, 0x800
_MIDNIGHT, _FIRST_DAY = 0, 0x21
"""1 January 1980, the earliest that the format can say. Source: PKWARE APPNOTE 6.3.10, 4.4.6."""


def packed(parts: Iterable[tuple[str, str]], constant: frozenset[str] = frozenset()) -> bytes:
    """The file that holds `parts` (name, text); those named in `constant` are packed once a process.

    Source: PKWARE APPNOTE 6.3.10, 4.3.7, 4.3.12 and 4.3.16; ECMA-376 part 2 (a package is such a file).
    """
    out: list[bytes] = []
    directory: list[bytes] = []
    at = 0
    for name, text in parts:
        data, crc, size = _packed_once(text) if name in constant else _deflated(text)
        path = name.encode()
        flags = 0 if name.isascii() else _UTF8
        common = (_VERSION, flags, _DEFLATED, _MIDNIGHT, _FIRST_DAY, crc, len(data), size, len(path), 0)
        out += (_LOCAL.pack(b"PK\3\4", *common), path, data)
        directory += (_CENTRAL.pack(b"PK\1\2", _VERSION, *common, 0, 0, 0, 0, at), path)
        at += _LOCAL.size + len(path) + len(data)
    count, listing = len(directory) // 2, b"".join(directory)
    return b"".join([*out, listing, _END.pack(b"PK\5\6", 0, 0, count, count, len(listing), at, 0)])


def _deflated(text: str) -> tuple[bytes, int, int]:
    """A part packed, its checksum, and its size."""
    data = text.encode()
    pack = zlib.compressobj(LEVEL, zlib.DEFLATED, -zlib.MAX_WBITS)
    return pack.compress(data) + pack.flush(), zlib.crc32(data), len(data)


_packed_once = lru_cache(maxsize=64)(_deflated)
