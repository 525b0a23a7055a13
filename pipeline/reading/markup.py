"""XML read as a stream by expat, entities forbidden; what kind of markup a text is."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Any, NoReturn
from xml.parsers import expat

from pipeline.reading.answers import answer, damaged

Start = Callable[[str, dict[str, str]], None]
End = Callable[[str], None]
Text = Callable[[str], None]

_MOST_OPEN = 100_000  # a sheet has a dozen; the count is rough, since pieces part a tag and comments may hold its signs
_OUT_OF_MEMORY = expat.errors.codes[expat.errors.XML_ERROR_NO_MEMORY]
_KINDS: tuple[tuple[str, str], ...] = (
    ("fods", r"<office:document[\s>].{0,6000}opendocument\.spreadsheet"),
    ("old xml", r"urn:schemas-microsoft-com:office:spreadsheet|progid=.excel\.sheet"),
    ("web page", r"<!doctype\s+html|<html[\s>]|<head[\s>]|<body[\s>]|<table[\s>]|<meta\s"),
    ("xml", r"\A<\?xml|\A<!doctype|\A<!--|\A<([a-z][\w:.-]*)[^<>]*>"),
)


def local(name: str) -> str:
    """A tag without its prefix."""
    return name.rpartition(":")[2]


class Tags(dict[str, Any]):
    """Handlers by tag without prefix; a prefixed tag is resolved once. Unknown tags give None."""

    def __missing__(self, name: str) -> Any:
        handler = self.get(local(name))
        if len(self) < 10_000:  # a file with endless names must not fill the memory
            self[name] = handler
        return handler


def parse(chunks: Iterable[bytes], start: Start, end: End, text: Text | None = None) -> None:
    """Run the handlers over a document; raises UnreadableFileError where it is malformed or declares entities.

    Namespaces are not resolved: tags come as written, so both the transitional and the strict form
    of Office Open XML, and files that bind other prefixes, are read alike. UTF-8, UTF-16 and the
    8-bit encodings are told apart by expat.
    """
    parser = expat.ParserCreate()
    parser.buffer_text = True
    parser.SetParamEntityParsing(expat.XML_PARAM_ENTITY_PARSING_NEVER)
    parser.StartElementHandler = start
    parser.EndElementHandler = end
    if text is not None:
        parser.CharacterDataHandler = text
    parser.EntityDeclHandler = _forbid
    parser.UnparsedEntityDeclHandler = _forbid
    parser.ExternalEntityRefHandler = _forbid
    depth = 0
    try:
        for chunk in chunks:
            depth += _opened(chunk)
            if depth > _MOST_OPEN:
                raise damaged("its XML is nested too deeply")
            parser.Parse(chunk, False)
        parser.Parse(b"", True)
    except expat.ExpatError as e:
        if e.code == _OUT_OF_MEMORY:
            raise MemoryError from e
        raise damaged(f"its XML breaks off at line {e.lineno:,}") from e
    except (LookupError, ValueError) as e:  # an encoding that is unknown, or no 8-bit one
        raise damaged("its XML is in an unknown encoding") from e


def _opened(chunk: bytes) -> int:
    """About how many more elements a piece opens than it closes; 0 for a piece in UTF-16, which is not looked at."""
    if b"\0" in chunk:
        return 0
    return chunk.count(b"<") - 2 * chunk.count(b"</") - chunk.count(b"/>") - chunk.count(b"<?") - chunk.count(b"<!")


def _forbid(*_: object) -> NoReturn:
    raise answer("entities")


def looks_like_markup(text: str) -> str:
    """Key of the kind of markup that a text begins with; '' for plain text."""
    head = text[:8000].lstrip("\ufeff \t\r\n\x00")
    if head[:1] in "{[" and re.match(r'[{\[]\s*(?:"|\{|\[|\}|\])', head):
        return "json"
    if not head.startswith("<"):
        return ""
    return next((key for key, pattern in _KINDS if re.search(pattern, head, re.IGNORECASE | re.DOTALL)), "")
