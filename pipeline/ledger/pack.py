"""JSON, compressed: how rows, results and catalogues lie in the ledger and travel between processes."""

from __future__ import annotations

import json
import zlib
from typing import Any


def pack(value: Any) -> bytes:
    """JSON, compressed."""
    return zlib.compress(json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode("utf-8", "surrogatepass"), 1)


def unpack(blob: bytes) -> Any:
    """The inverse of `pack`."""
    return json.loads(zlib.decompress(blob).decode("utf-8", "surrogatepass"))
