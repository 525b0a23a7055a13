"""JSON, compressed: how rows, results and catalogues lie in the ledger."""

from __future__ import annotations

import hashlib
import json
import sqlite3
import zlib
from typing import Any

MOST = 1 << 30
"""Bytes that one entry may unpack to; the largest honest one, a survey of 100,000 posts without its rows, has a tenth of it."""


def pack(value: Any) -> bytes:
    """JSON, compressed."""
    return zlib.compress(text_of(value), 1)


def unpack(blob: bytes) -> Any:
    """The inverse of `pack`; what cannot be unpacked is an error of the database that it lies in."""
    try:
        inflater = zlib.decompressobj()
        data = inflater.decompress(blob, MOST)
        if not inflater.eof:
            raise sqlite3.DatabaseError("an entry was cut off, or unpacks to more than any of ours")
        return json.loads(data.decode("utf-8", "surrogatepass"))
    except (zlib.error, ValueError, TypeError, RecursionError) as error:
        raise sqlite3.DatabaseError("an entry cannot be unpacked") from error


def text_of(value: Any) -> bytes:
    """Plain values as JSON, always the same for the same values in the same order."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode("utf-8", "surrogatepass")


def digest_of(plain: Any) -> str:
    """A digest of plain values."""
    return hashlib.blake2b(text_of(plain), digest_size=16).hexdigest()
