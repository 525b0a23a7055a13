"""Bytes of a text file to text: marks, UTF-16 without a mark, UTF-8, else Windows-1252."""

from __future__ import annotations

import re

from pipeline.reading.answers import answer

_MARKS: tuple[tuple[bytes, str], ...] = (
    (b"\xef\xbb\xbf", "utf-8"),
    (b"\xff\xfe\x00\x00", "utf-32-le"),
    (b"\x00\x00\xfe\xff", "utf-32-be"),
    (b"\xff\xfe", "utf-16-le"),
    (b"\xfe\xff", "utf-16-be"),
)
_SAMPLE = 65_536
_CONTROLS = re.compile(rb"[\x00-\x08\x0e-\x1a\x1c-\x1f]")
_MOST_CONTROLS = 0.01
_SHIFTED_LINE_END = "\u0a00"  # a line feed of UTF-16 read from the wrong byte; no character has this number


def decode(data: bytes) -> tuple[str, tuple[str, ...]]:
    """Text of a file and what is said about its encoding; raises UnreadableFileError for binary content."""
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return _decoded(data[len(mark) :], encoding), ()
    encoding = _unmarked_utf16(data[:_SAMPLE])
    if encoding:
        return _decoded(data, encoding), ()
    sample = data[:_SAMPLE]
    if len(_CONTROLS.findall(sample)) > max(4, _MOST_CONTROLS * len(sample)):
        raise answer("binary")
    try:
        return data.decode("utf-8"), ()
    except UnicodeDecodeError as e:
        if e.end == len(data) and e.start > 0 and e.reason == "unexpected end of data":
            return data.decode("utf-8", "replace"), ()
    return data.decode("cp1252", "replace"), ("The text is not in UTF-8; it was read as Windows-1252.",)


def _decoded(data: bytes, encoding: str) -> str:
    """The text; refused where a byte is missing or too many, since all that follows would be other characters."""
    text = data.decode(encoding, "replace")
    if _SHIFTED_LINE_END in text:
        raise answer("shifted")
    return text


def _unmarked_utf16(sample: bytes) -> str:
    """UTF-16 without a mark: every other byte of ordinary Latin text is zero."""
    even, odd = sample[0::2], sample[1::2]
    half = max(len(odd), 1)
    zeros_even, zeros_odd = even.count(0) / half, odd.count(0) / half
    if zeros_odd > 0.6 and zeros_even < 0.05:
        return "utf-16-le"
    if zeros_even > 0.6 and zeros_odd < 0.05:
        return "utf-16-be"
    return ""
