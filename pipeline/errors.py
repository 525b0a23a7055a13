"""Errors that are answers: their message is a sentence for who gave the command."""

from __future__ import annotations


class RefusedError(Exception):
    """What was asked for cannot be done, and nothing was; the command ends with status 2."""


class NotWrittenError(Exception):
    """A file that could not be written; the message says which and why in plain words. The command ends with status 3."""
