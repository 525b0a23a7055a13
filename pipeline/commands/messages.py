"""Errors as sentences: what a user sees instead of a traceback, and the exit status that goes with it."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Callable

import click

from pipeline.commands.terminal import listed, refuse
from pipeline.run.outcome import FAILED, REFUSED


def answer(command: Callable[[], int]) -> int:
    """Exit status of the command; a refusal is said on stderr."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a screen that cannot show a character shows a ?
    try:
        return command()
    except click.ClickException:
        raise
    except KeyboardInterrupt:
        refuse("Stopped. What was finished stands; run the same command again to go on.")
        return FAILED
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAILED
    except Exception as error:
        return _refused(error)


def _refused(error: Exception) -> int:
    from pipeline.executors.processes import NoSchedulerError
    from pipeline.explaining.find import ExplainError
    from pipeline.intake.catalogue.faults import CatalogueFaults
    from pipeline.ledger.schema import LedgerError
    from pipeline.output.folder import NotWrittenError
    from pipeline.output.lock import FolderBusyError
    from pipeline.reading import NoSurveyError

    if isinstance(error, CatalogueFaults):
        faults = [f"{', '.join(filter(None, (f.sheet, f.cell)))}: {f.message} {f.suggestion}".lstrip(": ") for f in error.faults]
        listed(
            f"The catalogue has {len(faults)} fault{'s' * (len(faults) > 1)}; nothing was written.", faults, "mend these first"
        )
        return REFUSED
    if isinstance(error, NoSurveyError | FolderBusyError | LedgerError | NoSchedulerError | ExplainError):
        refuse(str(error))
        return REFUSED
    if isinstance(error, NotWrittenError):
        refuse(str(error))
        return FAILED
    if isinstance(error, OSError):
        refuse(f"The system refused: {error.strerror or error}{f' ({error.filename})' if error.filename else ''}.")
        return FAILED
    refuse(f"postquote failed inside ({type(error).__name__}: {error}). What was finished stands. Please report this.")
    if os.environ.get("POSTQUOTE_TRACE"):
        raise error
    return FAILED
