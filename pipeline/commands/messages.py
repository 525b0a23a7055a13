"""Errors as sentences: what a user sees instead of a traceback, and the exit status that goes with it."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Callable
from contextlib import suppress
from typing import Any

import click

from pipeline.commands.terminal import listed, refuse
from pipeline.errors import NotWrittenError, RefusedError
from pipeline.run.outcome import FAILED, REFUSED


def answer(command: Callable[[], int]) -> int:
    """Exit status of the command; a refusal is said on stderr, whether or not anybody listens there."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a screen that cannot show a character shows a ?
    sys.stderr = Messages(sys.stderr)
    try:
        status = command()
        if sys.stdout is not None:
            sys.stdout.flush()
        return status
    except click.ClickException:
        raise
    except KeyboardInterrupt:
        refuse("Stopped. What was finished stands; run the same command again to go on.")
        return FAILED
    except Exception as error:
        _let_go_of_stdout()
        return _refused(error)


class Messages(io.TextIOBase):
    """stderr, closed or full as it may be: what cannot be said there changes nothing in what the command does."""

    def __init__(self, inner: Any) -> None:
        self._inner = inner

    def write(self, text: str) -> int:
        """Write as far as that can be done."""
        with suppress(OSError, ValueError, AttributeError):
            self._inner.write(text)
        return len(text)

    def flush(self) -> None:
        """Flush as far as that can be done."""
        with suppress(OSError, ValueError, AttributeError):
            self._inner.flush()

    def isatty(self) -> bool:
        """Whether a person sees it."""
        with suppress(OSError, ValueError, AttributeError):
            return bool(self._inner.isatty())
        return False


def _let_go_of_stdout() -> None:
    """Results that nobody takes any more go nowhere, so that the end of the process does not fail on them."""
    try:
        sys.stdout.flush()
    except (OSError, ValueError, AttributeError):
        with suppress(OSError, ValueError, AttributeError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _refused(error: Exception) -> int:
    """The exit status that goes with an error, said in a sentence; nothing is loaded for it: memory may be short."""
    if lines := getattr(error, "lines", None):
        listed(f"The catalogue has {len(lines)} fault{'s' * (len(lines) > 1)}; nothing was written.", lines, "mend these first")
        return REFUSED
    if isinstance(error, RefusedError | NotWrittenError):
        refuse(str(error))
        return REFUSED if isinstance(error, RefusedError) else FAILED
    if isinstance(error, BrokenPipeError):
        return FAILED
    if isinstance(error, MemoryError):
        refuse("There is not enough memory. What was finished stands; close other programs or raise the limit, then run again.")
        return FAILED
    if isinstance(error, OSError):
        refuse(f"The system refused: {error.strerror or error}{f' ({error.filename})' if error.filename else ''}.")
        return FAILED
    refuse(f"postquote failed inside ({type(error).__name__}: {error}). What was finished stands. Please report this.")
    if os.environ.get("POSTQUOTE_TRACE"):
        raise error
    return FAILED
