"""File and folder names made from codes: safe on every common system, never colliding."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

from schemas.order import folded

_Thing = TypeVar("_Thing")

FIELD = "-field.xlsx"
"""How the name of a field sheet ends."""
_RESERVED = {"con", "prn", "aux", "nul", *(f"com{i}" for i in range(10)), *(f"lpt{i}" for i in range(10))}
_LONGEST = 60
_MARK, _LONGEST_MARK = 8, 64
_LETTERS = str.maketrans(
    {"ß": "ss", "æ": "ae", "Æ": "AE", "œ": "oe", "Œ": "OE", "ø": "o", "Ø": "O", "ł": "l", "Ł": "L", "đ": "d", "Đ": "D"}
)
"""Latin letters that are no letter with a mark."""
_MADE = re.compile(rf"-[0-9a-f]{{{_MARK},{_LONGEST_MARK}}}\Z", re.IGNORECASE)


def safe_name(code: str) -> str:
    """A name of letters, digits, `-`, `_` and `.` for a code; codes that differ may give the same one."""
    name = re.sub(r"[^A-Za-z0-9._-]+", "_", _plain_letters(code)).strip("._- ")[:_LONGEST].rstrip("._- ")
    return f"{name}_" if not name or name.split(".")[0].casefold() in _RESERVED else name


def _plain_letters(text: str) -> str:
    """Latin letters without their marks: `Überlingen` is `Uberlingen`; other letters stay as they are."""
    apart = unicodedata.normalize("NFD", text.translate(_LETTERS))
    return "".join(c for c in apart if not unicodedata.combining(c))


def site_name(code: str, mark: int = _MARK) -> str:
    """Folder name of one site: its safe name where that shows the code as it is, else with a mark from the code's hash.

    A code that looks like a name with a mark has one made as well, so that no code is spelt like another's folder.
    """
    name = safe_name(code)
    if name == code and not _MADE.search(code):
        return name
    return f"{name}-{_hash(folded(code))[:mark]}"


def site_folders(codes: Mapping[str, str], taken: Mapping[str, str]) -> dict[str, str]:
    """Folder of each site in the output folder, by folded code; no two are alike, case disregarded.

    `codes` are the sites' codes as they are spelt, `taken` the folders of sites that have one. A site keeps its own
    for good; two new ones that would share a name both get longer marks, so that no order of sites counts.
    """
    return _folders(codes, taken, lambda code, mark: f"sites/{site_name(code, mark)}", (_MARK, 16, 32, _LONGEST_MARK))


def customer_folders(names: Mapping[str, str], taken: Mapping[str, str]) -> dict[str, str]:
    """Folder of each customer in the output folder, by the customer's key; no two are alike, case disregarded.

    As `site_folders`, but a plain name is told apart by a mark only where another one's folder is spelt like it.
    """
    keyed = {key: (name, key) for key, name in names.items()}
    return _folders(keyed, taken, lambda who, mark: f"customers/{_customer_name(*who, mark)}", (0, _MARK, 32, _LONGEST_MARK))


def _customer_name(name: str, key: str, mark: int) -> str:
    plain = re.sub(r"_*-[-_]*", "-", safe_name("-".join(name.split())))
    sure = name.isascii() and not _MADE.search(plain)
    return plain if sure and not mark else f"{plain}-{_hash(key)[: mark or _MARK]}"


def _folders(
    things: Mapping[str, _Thing], taken: Mapping[str, str], named: Callable[[_Thing, int], str], marks: Sequence[int]
) -> dict[str, str]:
    made = {key: taken[key] for key in things if key in taken}
    used = {folder.casefold() for folder in taken.values()}
    left = {key: thing for key, thing in things.items() if key not in made}
    for mark in marks:
        names = {key: named(thing, mark) for key, thing in left.items()}
        count = Counter(name.casefold() for name in names.values())
        alone = {k: n for k, n in names.items() if count[n.casefold()] == 1 and n.casefold() not in used}
        made |= alone
        used |= {name.casefold() for name in alone.values()}
        left = {key: thing for key, thing in left.items() if key not in alone}
    if left:
        raise ValueError(f"no folder could be named for {sorted(left)}")  # two codes with one SHA-256
    return made


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def workbook_path(folder: str, revision: int) -> str:
    """Path of a revision's workbook in the output folder; `folder` is the site's."""
    return f"{folder}/{folder.rpartition('/')[2]}-r{revision}.xlsx"


def field_sheet_path(workbook: str) -> str:
    """Path of the field sheet that goes with a revision's workbook."""
    return f"{workbook.removesuffix('.xlsx')}{FIELD}"


def folder_of(workbook: str) -> str:
    """The site's folder, given the path of one of its workbooks."""
    return workbook.rpartition("/")[0]
