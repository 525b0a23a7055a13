"""Where marked copies go: names that are safe on every common system and never collide."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Sequence

from pipeline.intake.returned import Identity

PART_LONGEST = 80
"""Bytes of one part of a path, in UTF-8: every common file system takes 255, and an ending and a number go with it."""

PATH_LONGEST = 160
"""Characters of a whole path; the shortest common limit is 260 with the drive and the folder before it."""

RESERVED = frozenset(
    {"con", "prn", "aux", "nul", "conin$", "conout$"} | {f"{d}{n}" for d in ("com", "lpt") for n in "0123456789¹²³"}
)
"""Names of devices that no file may have. Source: Microsoft Learn, Naming Files, Paths, and Namespaces (memory)."""


def returned_name(names: Sequence[str]) -> dict[str, str]:
    """Input file's name (relative, forward slashes) -> `returns/SUB/NAME-marked.xlsx`.

    Two files never share a name, not even where case or the way of writing an accent does not count: of
    `a.csv` and `a.xlsx` the workbook keeps the plain name and the other is `a-csv-marked.xlsx`. The
    answer does not depend on the order of `names`.
    """
    order = sorted(set(names), key=lambda n: (not n.casefold().endswith((".xlsx", ".xlsm")), n))
    taken: set[str] = set()
    out: dict[str, str] = {}
    waiting = []
    for name in order:
        plain = _path(name, "")
        if _key(plain) in taken:
            waiting.append(name)
        else:
            taken.add(_key(plain))
            out[name] = plain
    for name in waiting:
        out[name] = _free(name, taken)
        taken.add(_key(out[name]))
    return {name: out[name] for name in names}


def names_of_copies(files: Sequence[tuple[str, Identity | None]]) -> dict[str, str]:
    """Input file's name -> where its marked copy goes: a copy that came back goes on under its first file's name.

    Of several that would have one name, the latest round has it, and the others go by their own.
    """
    order = sorted(files, key=lambda f: (-(f[1].round if f[1] else 0), f[0]))
    shown: dict[str, str] = {}
    for name, identity in order:
        first = identity.file if identity else name
        shown[name] = first if first not in shown.values() else name if name not in shown.values() else f"{name} (2)"
    paths = returned_name(list(shown.values()))
    return {name: paths[shown[name]] for name, _ in files}


def _free(name: str, taken: set[str]) -> str:
    """The first name with the extension, then with a number, that is not taken."""
    ending = safe_part(_split(name)[2]).strip("_") or "file"
    number = 1
    while True:
        path = _path(name, f"-{ending}" if number == 1 else f"-{ending}-{number}")
        if _key(path) not in taken:
            return path
        number += 1


def _split(name: str) -> tuple[list[str], str, str]:
    """Folders, the file's name without its extension, and the extension without its point."""
    *folders, last = [p for p in name.replace("\\", "/").split("/") if p not in ("", ".")] or [""]
    stem, dot, ending = last.rpartition(".")
    return (folders, stem, ending) if dot and stem else (folders, last, "")


def _path(name: str, extra: str) -> str:
    folders, stem, _ = _split(name)
    last = f"{safe_part(stem)}{extra}-marked.xlsx"
    safe = [_folder(f) for f in folders]
    path = "/".join(("returns", *safe, last))
    if len(path) > PATH_LONGEST:
        path = f"returns/{_digest('/'.join(folders))}/{last}"
    return path


def _folder(part: str) -> str:
    """A folder's name; one that ends like a workbook could meet a file of that name."""
    safe = safe_part(part)
    return f"{safe}_" if safe.casefold().endswith(".xlsx") else safe


def safe_part(part: str) -> str:
    """One part of a path as every common system takes it: composed, nothing invisible, no device's name."""
    text = unicodedata.normalize("NFC", part)
    text = "".join("_" if c in '<>:"/\\|?*' or unicodedata.category(c)[0] == "C" or c in "\u2028\u2029" else c for c in text)
    text = re.sub(r"\s+", " ", text).strip(" ").rstrip(". ")
    if not text:
        return "_"
    if text.split(".")[0].strip().casefold() in RESERVED or text[0] == ".":
        text = f"_{text}"
    return _short(text, part)


def _short(text: str, part: str) -> str:
    """Cut to length; what was cut is told apart by a digest of the whole."""
    if len(text.encode()) <= PART_LONGEST:
        return text
    head = text.encode()[: PART_LONGEST - 9].decode(errors="ignore").rstrip(". ")
    return f"{head}-{_digest(part)}"


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]


def _key(path: str) -> str:
    """How a system that does not mind case compares two paths."""
    return unicodedata.normalize("NFKC", path.casefold()).casefold()
