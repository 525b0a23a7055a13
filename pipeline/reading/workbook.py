"""Parts of an Office Open XML package: what points to what, and which is the workbook."""

from __future__ import annotations

import posixpath
from dataclasses import dataclass
from urllib.parse import unquote

from pipeline.reading.limits import refuse
from pipeline.reading.markup import local, parse
from pipeline.reading.ooxml_parts import Package

_MOST_LINKS = 100_000  # a sheet with tens of thousands of hyperlinks has as many; source: common practice
_USUAL = ("xl/workbook.xml", "xl/workbook.bin")


@dataclass(frozen=True, slots=True)
class Link:
    """One relationship: what kind of part it leads to (the last word of its type) and where that is."""

    kind: str
    target: str


def links(package: Package, part: str) -> dict[str, Link]:
    """Relationships of a part by their id; empty where it has none.

    Targets are resolved against the part's folder. Source: ISO/IEC 29500-2, 9.3 and annex A.
    """
    folder, name = posixpath.split(part)
    member = package.find(posixpath.join(folder, "_rels", name + ".rels"))
    if member is None:
        return {}
    found: dict[str, Link] = {}
    seen = 0

    def start(tag: str, attributes: dict[str, str]) -> None:
        nonlocal seen
        seen += 1
        if seen > _MOST_LINKS:
            raise refuse(f"more than {_MOST_LINKS:,} links between its parts")
        if local(tag) == "Relationship" and attributes.get("TargetMode", "").lower() != "external":
            kind = attributes.get("Type", "").rstrip("/").rpartition("/")[2]
            target = attributes.get("Target", "").replace("\\", "/")
            found[attributes.get("Id", "")] = Link(kind, _resolved(package, folder, target))

    parse(package.chunks(member), start, lambda tag: None)
    return found


def _resolved(package: Package, folder: str, target: str) -> str:
    """The name of the member that a target means."""
    target = target.split("#")[0]
    path = target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
    if package.find(path) is None and package.find(unquote(path)) is not None:
        return unquote(path)
    return path


def workbook_part(package: Package) -> str | None:
    """Name of the workbook's part; None where the package is something else."""
    for link in links(package, "").values():
        if link.kind == "officeDocument" and package.find(link.target) is not None:
            name = posixpath.basename(link.target).lower()
            return link.target if "document" not in name and "presentation" not in name else None
    return next((name for name in _USUAL if package.find(name) is not None), None)
