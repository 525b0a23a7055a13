"""A file's format by its content, and the reader for it."""

from __future__ import annotations

import errno
import os
import re
import stat
from dataclasses import replace
from typing import Any

from pipeline.reading.answers import answer
from pipeline.reading.book import Book, UnreadableFileError
from pipeline.reading.limits import Budget, Limits, refuse

_OLE2 = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"

SIGNATURES: tuple[tuple[bytes, str], ...] = (
    (b"%PDF", "pdf"),
    (b"{\\rtf", "rtf"),
    (b"\x89PNG", "picture"),
    (b"\xff\xd8\xff", "picture"),
    (b"GIF8", "picture"),
    (b"II*\x00", "picture"),
    (b"MM\x00*", "picture"),
    (b"BM", "picture"),
    (b"RIFF", "picture"),
    (b"\x1f\x8b", "archive"),
    (b"BZh", "archive"),
    (b"7z\xbc\xaf\x27\x1c", "archive"),
    (b"Rar!", "archive"),
    (b"\xfd7zXZ\x00", "archive"),
    (b"\x28\xb5\x2f\xfd", "archive"),
    (b"TABLE\r\n", "link format"),
    (b"TABLE\n", "link format"),
    (b"MIME-Version:", "mail"),
    (b"From: ", "mail"),
    (b"Return-Path:", "mail"),
    (b"%!PS", "document"),
)
"""First bytes of what is no survey, with the key of the answer. Source: memory."""

_LINK = re.compile(rb"ID;P[^\r\n]*\r?\n(?:P;|F;|B;|C;[XYK]|O;|NN;|NU;|W;|E\r?\n)")
"""An old exchange format; a table whose first heading is `ID` is none. Source: memory."""

_BINARY_ONLY = {b"BM", b"RIFF"}  # letters that a text may begin with as well


def read_bytes(path: str, limits: Limits) -> Book:
    """Cells of one file; raises UnreadableFileError and nothing else."""
    return read_loaded(load(path, limits), path, limits)


def read_loaded(data: bytes, path: str, limits: Limits) -> Book:
    """Cells in the bytes of the file at `path`; raises UnreadableFileError and nothing else."""
    try:
        return _read(data, path, limits)
    except (UnreadableFileError, ImportError):  # a broken installation is no fault of the file
        raise
    except MemoryError:
        raise answer("memory") from None
    except Exception as e:  # the libraries raise a dozen unrelated kinds for damaged files
        raise answer("damaged") from e


def load(path: str, limits: Limits) -> bytes:
    """The file's bytes; a pipe or a device that took its place meanwhile is not waited for."""
    flags = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOCTTY", 0)
    flags |= getattr(os, "O_NOFOLLOW", 0)  # a link that took its place is not followed
    try:
        descriptor = os.open(path, flags)
    except FileNotFoundError:
        raise answer("gone") from None
    except PermissionError:
        raise answer("denied") from None
    except (OSError, ValueError) as error:
        raise answer("link" if getattr(error, "errno", 0) == errno.ELOOP else "unopened") from None
    status = os.fstat(descriptor)
    if not stat.S_ISREG(status.st_mode):
        os.close(descriptor)  # before a stream is made of it: a folder can be none
        raise answer("not a file")
    with os.fdopen(descriptor, "rb") as f:
        if status.st_size > limits.file_bytes:
            raise refuse(f"{status.st_size // 1_000_000:,} MB")
        try:
            data = f.read(limits.file_bytes + 1)
        except OSError:
            raise answer("unopened") from None
    if len(data) > limits.file_bytes:
        raise refuse(f"more than {limits.file_bytes // 1_000_000:,} MB")
    if not data:
        raise answer("empty")
    return data


def _read(data: bytes, path: str, limits: Limits) -> Book:
    budget = Budget(limits)
    if data.startswith((b"PK\x03\x04", b"PK\x05\x06")):
        return _read_zip(data, budget)
    if data.startswith(_OLE2):
        return _read_ole2(data, budget)
    if _is_old_stream(data):
        return _read_xls(data, budget)
    if _LINK.match(data):
        raise answer("link format")
    for start, key in SIGNATURES:
        if data.startswith(start) and not (start in _BINARY_ONLY and b"\x00" not in data[:64]):
            raise answer(key)
    return _read_text(data, path, budget)


def _read_zip(data: bytes, budget: Budget) -> Book:
    """A workbook in a zip: Office Open XML, its binary sister, or OpenDocument."""
    from pipeline.reading.ooxml_parts import Package
    from pipeline.reading.properties import own_properties

    package = Package(data, budget)
    book = _read_package(package)
    return replace(book, properties=own_properties(package))


def _read_package(package: Any) -> Book:
    kind = package.mimetype()
    if kind:
        if "opendocument.spreadsheet" in kind:
            from pipeline.reading.ods import read_ods

            return read_ods(package)
        words = {"sun.xml.calc": "old open", "opendocument.text": "document", "opendocument.presentation": "slides"}
        raise answer(next((key for word, key in words.items() if word in kind), "zip"))
    if package.find("content.xml") and package.find("META-INF/manifest.xml"):
        from pipeline.reading.ods import read_ods

        return read_ods(package)
    from pipeline.reading.workbook import workbook_part

    part = workbook_part(package)
    if part is None:
        raise answer(_other_zip(package))
    if part.lower().endswith(".bin"):
        from pipeline.reading.xlsb import read_xlsb

        return read_xlsb(package, part)
    from pipeline.reading.xlsx import read_xlsx

    return read_xlsx(package, part)


def _other_zip(package: Any) -> str:
    """Key of the answer for a zip without a workbook."""
    marks = {"word/document.xml": "document", "ppt/presentation.xml": "slides", "Index/Document.iwa": "numbers"}
    return next(
        (key for name, key in marks.items() if package.find(name)), "office" if package.find("[Content_Types].xml") else "zip"
    )


def _read_ole2(data: bytes, budget: Budget) -> Book:
    """A compound file: an old workbook, or a package under a password, or something else."""

    folded = data.lower()  # names of streams are compared without case. Source: MS-CFB 2.6.4

    def holds(stream: str) -> bool:
        return stream.lower().encode("utf-16-le") in folded

    if holds("EncryptedPackage"):
        raise answer("password")
    if not holds("Workbook") and not holds("Book"):
        raise answer("document" if holds("WordDocument") else "slides" if holds("PowerPoint") else "office")
    return _read_xls(data, budget)


def _is_old_stream(data: bytes) -> bool:
    """A bare stream of the oldest workbooks. Source: MS-XLS 2.4.21 BOF; memory for the older ones."""
    return (
        data[:1] == b"\x09"
        and data[1:2] in (b"\x00", b"\x02", b"\x04", b"\x08")
        and data[2:4] in (b"\x04\x00", b"\x06\x00", b"\x08\x00", b"\x10\x00")
    )


def _read_xls(data: bytes, budget: Budget) -> Book:
    from pipeline.reading.xls import read_xls

    return read_xls(data, budget)


def _read_text(data: bytes, path: str, budget: Budget) -> Book:
    from pipeline.reading.encodings import decode
    from pipeline.reading.markup import looks_like_markup

    text, notes = decode(data)
    key = looks_like_markup(text)
    if key == "fods":
        from pipeline.reading.ods import read_fods

        return read_fods(data, budget)
    if key:
        raise answer(key)
    from pipeline.reading.text_file import read_text

    return read_text(text, notes, path, budget)
