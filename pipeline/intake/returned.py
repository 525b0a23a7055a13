"""What a marked copy answers to, kept in the workbook's own custom properties whatever the copy is called."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

PROPERTY = "postquote-return"
"""Name of the custom property."""

_KEPT = 32  # figures of a fingerprint that are kept: programs may cut a property at 255 characters
_TEXT = re.compile(rf"round (\d{{1,4}}) of ([0-9a-f]{{{_KEPT}}}) from ([0-9a-f]{{{_KEPT}}}): (.+)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Identity:
    """The first file's name and content, the content of the file that the copy was made of, and how often it went out.

    Contents are the first 32 figures of a SHA-256; '' where it is not known.
    """

    file: str
    first: str
    made_of: str
    round: int

    @property
    def text(self) -> str:
        """As it stands in the property."""
        return f"round {self.round} of {self.first} from {self.made_of}: {self.file}"


def first_round(file: str, content: str) -> Identity:
    """Identity of the first marked copy of a file with a content (SHA-256)."""
    return Identity(file, content[:_KEPT], content[:_KEPT], 1)


def next_round(before: Identity, content: str) -> Identity:
    """Identity of the next marked copy, of a copy that came back with a content: it goes on under the first name."""
    return Identity(before.file, before.first, content[:_KEPT], before.round + 1)


def identity_of(properties: Mapping[str, str]) -> Identity | None:
    """Identity of a workbook with those properties; None where it is no marked copy."""
    m = _TEXT.fullmatch(properties.get(PROPERTY, ""))
    return Identity(m[4], m[2], m[3], int(m[1])) if m else None
