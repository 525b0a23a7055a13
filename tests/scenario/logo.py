"""The dealer's logo, drawn here: a board with its ring on a post, over a court's line; one bit a pixel."""

from __future__ import annotations

import struct
import zlib

WIDTH, HEIGHT = 240, 160


def _ink(x: int, y: int) -> bool:
    """Whether a pixel is drawn; y runs down."""
    line = 8 <= x < 232 and 148 <= y < 154
    post = 26 <= x < 36 and 40 <= y < 148
    arm = 36 <= x < 76 and abs((y - 62) - (x - 36) * 0.1) < 4
    board = 76 <= x < 84 and 14 <= y < 96
    ring = 84 <= x < 92 and 82 <= y < 88
    hoop = 0.82 < ((x - 128) / 38) ** 2 + ((y - 85) / 9) ** 2 < 1.25
    net = 92 <= x < 165 and 90 <= y < 122 and (x - 92 - (y - 90) * 0.5) % 18 < 2 and x + (y - 90) * 0.5 < 165
    ball = 0.80 < ((x - 196) / 24) ** 2 + ((y - 36) / 24) ** 2 < 1.0
    seam = (x - 196) ** 2 + (y - 36) ** 2 < 500 and (abs(x - 196) < 2 or abs(y - 36) < 2)
    return line or post or arm or board or ring or hoop or net or ball or seam


def png() -> bytes:
    """The picture. Source: PNG, third edition (W3C): signature, IHDR, PLTE, IDAT, IEND."""
    rows = [bytes([0, *(_byte(x, y) for x in range(0, WIDTH, 8))]) for y in range(HEIGHT)]
    head = struct.pack(">IIBBBBB", WIDTH, HEIGHT, 1, 3, 0, 0, 0)
    parts = [
        (b"IHDR", head),
        (b"PLTE", bytes.fromhex("ffffff1f3a4d")),
        (b"IDAT", zlib.compress(b"".join(rows), 0)),
        (b"IEND", b""),
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(kind, data) for kind, data in parts)


def _byte(x: int, y: int) -> int:
    return sum(_ink(x + bit, y) << (7 - bit) for bit in range(8))


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
