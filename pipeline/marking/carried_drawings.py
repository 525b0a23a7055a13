"""Pictures, shapes and charts of the sender's sheets, carried over part by part: openpyxl would lose most of them."""

from __future__ import annotations

import io
import posixpath
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from xml.etree.ElementTree import tostring
from xml.sax.saxutils import quoteattr
from zipfile import ZipFile

from defusedxml.ElementTree import fromstring

_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
_DRAWING = f"{_RELATIONS}/drawing"
_REL_ID = "rIdSenderDrawing"
_AFTER_DRAWING = ("<legacyDrawing", "<tableParts", "<extLst", "</worksheet>")
"""What may follow a drawing in a sheet's part. Source: ECMA-376-1, CT_Worksheet (those that openpyxl writes)."""


_IMAGES = ("png", "jpg", "jpeg", "gif", "bmp", "tif", "tiff", "emf", "wmf", "svg")
_KINDS: dict[str, tuple[str, ...]] = {
    "image": _IMAGES,
    **dict.fromkeys(
        ("chart", "chartEx", "chartUserShapes", "chartStyle", "chartColorStyle", "themeOverride", "diagramData", "diagramLayout",
         "diagramQuickStyle", "diagramColors", "diagramDrawing"),
        ("xml",),
    ),
}  # fmt: skip
"""Kinds of relations whose parts are carried (the last word of their type), with the endings that such parts have.

Sources: ECMA-376-1 part 1, 11 to 15; Office's own extensions for chart styles and drawings of diagrams.
"""
_FOLDER = "xl/sender"  # parts get names of our own, so that none can be taken for another kind


@dataclass
class Drawings:
    """The drawing's part of each sheet (by title), and every part that hangs on it with its content type, under names of ours."""

    by_sheet: dict[str, str] = field(default_factory=dict)
    parts: dict[str, bytes] = field(default_factory=dict)
    types: dict[str, str] = field(default_factory=dict)  # part -> content type
    endings: dict[str, str] = field(default_factory=dict)  # extension -> content type
    left_out: list[str] = field(default_factory=list)  # titles of sheets whose drawing holds something unknown


class _UnknownPartError(Exception):
    """A drawing hangs on a part of a kind that is not known: it is left out whole."""


def collect(archive: ZipFile, sheets: Mapping[str, str]) -> Drawings:
    """Drawings of `sheets` (title -> part) with all that they refer to inside the file; only known kinds of parts.

    Errors: KeyError where a part is missing, ParseError and defusedxml's own for bad XML.
    """
    found = Drawings()
    names: dict[str, str] = {}  # part of the sender's -> ours
    overrides, endings = _content_types(archive)
    there = set(archive.namelist())
    for title, part in sheets.items():
        for link in _links(archive, there, part):
            if link.kind == "drawing" and link.part:
                try:
                    new = _carry(archive, there, link.part, names)
                except _UnknownPartError:
                    found.left_out.append(title)
                    continue
                found.parts |= {name: data for name, (data, _) in new.items()}
                found.types |= {name: t for name, (_, old) in new.items() if _is_known(t := overrides.get(old, ""))}
                found.by_sheet[title] = names[link.part]
    used = {posixpath.splitext(p)[1].lstrip(".").casefold() for p in found.parts}
    found.endings = {e: t for e, t in endings.items() if e in used and _is_known(t)}
    return found


def without_drawings(archive: ZipFile, sheets: Sequence[str]) -> bytes:
    """The package without the relations that lead from `sheets`, parts of it, to their drawings."""
    out, bare = io.BytesIO(), {_rels(sheet) for sheet in sheets}
    with ZipFile(out, "w") as new:
        for name in archive.namelist():
            data = archive.read(name)
            new.writestr(name, _no_drawing(data) if name in bare else data)
    return out.getvalue()


def _no_drawing(relations: bytes) -> bytes:
    root = fromstring(relations)
    for link in [link for link in root if link.get("Type", "").endswith("/drawing")]:
        root.remove(link)
    return tostring(root)


def _is_known(content_type: str) -> bool:
    """Whether a content type is that of a picture or of markup: nothing that a program runs."""
    return content_type.startswith("image/") or (content_type.endswith("+xml") and "macro" not in content_type.casefold())


def _carry(archive: ZipFile, there: set[str], drawing: str, names: dict[str, str]) -> dict[str, tuple[bytes, str]]:
    """A drawing and what it leads to: new name -> bytes and old name. Errors: _UnknownPartError."""
    new: dict[str, tuple[bytes, str]] = {}
    named: dict[str, str] = {}
    waiting: list[tuple[str, tuple[str, ...]]] = [(drawing, ("xml",))]
    while waiting:
        part, fit = waiting.pop()
        if part in names or part in named:
            continue
        ending = posixpath.splitext(part)[1].lstrip(".").casefold()
        if ending not in fit:
            raise _UnknownPartError(part)
        named[part] = f"{_FOLDER}/part{len(names) + len(named) + 1}.{ending}"
        links = _links(archive, there, part)
        for link in links:
            if link.part and link.kind not in _KINDS:
                raise _UnknownPartError(link.part)
        waiting += [(link.part, _KINDS[link.kind]) for link in links if link.part]
    for old, name in named.items():
        new[name] = (archive.read(old), old)
        if links := _links(archive, there, old):
            new[_rels(name)] = (_relations(links, names | named), "")
    names |= named
    return new


@dataclass(frozen=True)
class _Link:
    """One relation of a part; `part` is '' where it leads out of the file."""

    id: str
    type: str
    target: str
    part: str

    @property
    def kind(self) -> str:
        """The last word of its type."""
        return self.type.rstrip("/").rpartition("/")[2]


def _links(archive: ZipFile, there: set[str], part: str) -> list[_Link]:
    """Relations of a part. Errors: _UnknownPartError for one that leads out of the file and is no hyperlink."""
    if _rels(part) not in there:
        return []
    out = []
    for rel in fromstring(archive.read(_rels(part))):
        target, outside = rel.get("Target", ""), rel.get("TargetMode") == "External"
        path = target[1:] if target.startswith("/") else posixpath.normpath(posixpath.join(posixpath.dirname(part), target))
        inside = "" if outside or not target or path not in there else path
        out.append(_Link(rel.get("Id", ""), rel.get("Type", ""), target, inside))
    return out


def _relations(links: Sequence[_Link], names: Mapping[str, str]) -> bytes:
    """Relations under names of ours; of those that lead out of the file only hyperlinks stay."""
    lines = []
    for link in links:
        if not link.part and link.kind != "hyperlink":
            raise _UnknownPartError(link.target)
        target = "/" + names[link.part] if link.part else link.target
        mode = "" if link.part else ' TargetMode="External"'
        lines.append(f"<Relationship Id={quoteattr(link.id)} Type={quoteattr(link.type)} Target={quoteattr(target)}{mode}/>")
    return f'<Relationships xmlns="{_PACKAGE}">{"".join(lines)}</Relationships>'.encode()


def _rels(part: str) -> str:
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", f"{name}.rels")


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
    rels = parts.get(_rels(sheet), f'<Relationships xmlns="{_PACKAGE}"/>'.encode()).decode()
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
