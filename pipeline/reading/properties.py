"""Our own custom properties of a workbook: what a marked copy or a field sheet answers to."""

from __future__ import annotations

from pipeline.reading.book import UnreadableFileError
from pipeline.reading.markup import local, parse
from pipeline.reading.ooxml_parts import Package

OURS = "postquote-"
"""How the names of our own properties begin; others are not looked at."""

_LONGEST_PART = 1_000_000  # bytes
_LONGEST = 2_000  # characters of a value

_IN_OOXML = ("docProps/custom.xml", "property", "name")
_IN_OPEN_DOCUMENT = ("meta.xml", "user-defined", "meta:name")
"""Part, element, and the attribute with the property's name.

Sources: ISO/IEC 29500-1 22.3 (custom properties); OpenDocument 1.3 part 3, 4.3.3.
"""


def own_properties(package: Package) -> dict[str, str]:
    """Our properties by name; none where their part is missing, too large or not to be read."""
    found: dict[str, str] = {}
    for part, element, attribute in (_IN_OOXML, _IN_OPEN_DOCUMENT):
        member = package.find(part)
        if member is not None and member.file_size <= _LONGEST_PART:
            try:
                found |= _in_part(package.read(member), element, attribute)
            except UnreadableFileError:  # a workbook without properties is as good a survey
                continue
    return found


def _in_part(data: bytes, element: str, attribute: str) -> dict[str, str]:
    """Texts of the elements that carry a name of ours."""
    found: dict[str, str] = {}
    name = ""

    def start(tag: str, attributes: dict[str, str]) -> None:
        nonlocal name
        if local(tag) == element:
            named = attributes.get(attribute, "")
            name = named if named.startswith(OURS) else ""
            if name:
                found[name] = ""

    def end(tag: str) -> None:
        nonlocal name
        if local(tag) == element:
            name = ""

    def text(data: str) -> None:
        if name and len(found[name]) < _LONGEST:
            found[name] += data

    parse((data,), start, end, text)
    return {n: value.strip() for n, value in found.items() if value.strip()}
