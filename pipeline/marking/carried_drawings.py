"""Pictures, shapes and charts of the sender's sheets, carried over part by part: openpyxl would lose most of them."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from xml.sax.saxutils import quoteattr
from zipfile import ZipFile

from defusedxml.ElementTree import fromstring

_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_DRAWING = f"{_RELATIONS}/drawing"
_REL_ID = "rIdSenderDrawing"
_AFTER_DRAWING = ("<legacyDrawing", "<tableParts", "<extLst", "</worksheet>")
"""What may follow a drawing in a sheet's part. Source: ECMA-376-1, CT_Worksheet (those that openpyxl writes)."""


@dataclass
class Drawings:
    """The drawing's part of each sheet (by title), and every part that hangs on it with its content type."""

    by_sheet: dict[str, str] = field(default_factory=dict)
    parts: dict[str, bytes] = field(default_factory=dict)
    types: dict[str, str] = field(default_factory=dict)  # part -> content type
    endings: dict[str, str] = field(default_factory=dict)  # extension -> content type


def collect(archive: ZipFile, sheets: Mapping[str, str]) -> Drawings:
    """Drawings of `sheets` (title -> part) with all that they refer to inside the file.

    Errors: KeyError where a part is missing, ParseError and defusedxml's own for bad XML.
    """
    found = Drawings()
    names = set(archive.namelist())
    overrides, endings = _content_types(archive)
    for title, part in sheets.items():
        for type_, target in _targets(archive, names, part):
            if type_ == _DRAWING:
                found.by_sheet[title] = target
                _carry(archive, names, target, found.parts)
    found.types = {p: overrides[p] for p in found.parts if p in overrides}
    used = {posixpath.splitext(p)[1].lstrip(".").casefold() for p in found.parts}
    found.endings = {e: t for e, t in endings.items() if e in used}
    return found


def _carry(archive: ZipFile, names: set[str], part: str, parts: dict[str, bytes]) -> None:
    """A part, its relations and what they lead to."""
    waiting = [part]
    while waiting:
        name = waiting.pop()
        if name in parts:
            continue
        parts[name] = archive.read(name)
        rels = _rels(name)
        if rels in names:
            parts[rels] = archive.read(rels)
            waiting += [target for _, target in _targets(archive, names, name)]


def _rels(part: str) -> str:
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", f"{name}.rels")


def _targets(archive: ZipFile, names: set[str], part: str) -> list[tuple[str, str]]:
    """Relations of a part to other parts of the file: type and part."""
    if _rels(part) not in names:
        return []
    out = []
    for rel in fromstring(archive.read(_rels(part))):
        target = rel.get("Target", "")
        if rel.get("TargetMode") == "External" or not target:
            continue
        path = target[1:] if target.startswith("/") else posixpath.normpath(posixpath.join(posixpath.dirname(part), target))
        if path in names:
            out.append((rel.get("Type", ""), path))
    return out


def _content_types(archive: ZipFile) -> tuple[dict[str, str], dict[str, str]]:
    """Content types by part and by extension."""
    root = fromstring(archive.read("[Content_Types].xml"))
    parts = {e.get("PartName", "").lstrip("/"): e.get("ContentType", "") for e in root if e.tag.endswith("Override")}
    endings = {e.get("Extension", "").casefold(): e.get("ContentType", "") for e in root if e.tag.endswith("Default")}
    return parts, endings


def graft(parts: dict[str, bytes], drawings: Drawings, sheets: Sequence[str]) -> dict[str, bytes]:
    """`parts` of a saved workbook with the drawings put in; `sheets` are its titles in the order of their parts.

    Errors: ValueError where a part of the same name is there already.
    """
    if clash := set(drawings.parts) & set(parts):
        raise ValueError(f"part there already: {min(clash)}")
    if not drawings.by_sheet:
        return parts
    out = {**parts, **drawings.parts}
    for number, title in enumerate(sheets, 1):
        if title in drawings.by_sheet:
            _put(out, f"xl/worksheets/sheet{number}.xml", drawings.by_sheet[title])
    out["[Content_Types].xml"] = _declared(out["[Content_Types].xml"].decode(), drawings).encode()
    return out


def _put(parts: dict[str, bytes], sheet: str, drawing: str) -> None:
    """One sheet's reference to its drawing."""
    xml = parts[sheet].decode()
    at = min(i for mark in _AFTER_DRAWING if (i := xml.find(mark)) >= 0)
    parts[sheet] = f'{xml[:at]}<drawing xmlns:r="{_RELATIONS}" r:id="{_REL_ID}"/>{xml[at:]}'.encode()
    rels = parts.get(
        _rels(sheet), b'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"/>'
    ).decode()
    one = f'<Relationship Id="{_REL_ID}" Type="{_DRAWING}" Target={quoteattr("/" + drawing)}/>'
    opened = re.sub(r"(<Relationships[^>]*?)/>\s*$", r"\1></Relationships>", rels)
    parts[_rels(sheet)] = opened.replace("</Relationships>", f"{one}</Relationships>").encode()


def _declared(types: str, drawings: Drawings) -> str:
    """The list of content types with those of the drawings' parts."""
    lines = [f"<Override PartName={quoteattr('/' + p)} ContentType={quoteattr(t)}/>" for p, t in sorted(drawings.types.items())]
    there = {e.casefold() for e in re.findall(r'<Default[^>]*Extension="([^"]*)"', types)}
    lines += [
        f"<Default Extension={quoteattr(e)} ContentType={quoteattr(t)}/>"
        for e, t in sorted(drawings.endings.items())
        if e not in there
    ]
    return types.replace("</Types>", f"{''.join(lines)}</Types>")
