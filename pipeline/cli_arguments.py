"""What the commands' arguments share, and the one place where their errors become messages and exit statuses."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

import click

CATALOGUE = click.Path(exists=True, dir_okay=False)


class Folder(click.Path):
    """A folder for results; no name at all would be the current folder, which nobody has named."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The folder's path."""
        if not os.fspath(value).strip():
            self.fail("name a folder; '.' is the current one.", param, ctx)
        return super().convert(value, param, ctx)


FOLDER = Folder(file_okay=False, path_type=Path)


def answered(command: Callable[..., int]) -> Callable[..., None]:
    """The one place where errors become messages and exit statuses."""

    @wraps(command)
    def run(**options: Any) -> None:
        from pipeline.commands.messages import answer

        sys.exit(answer(lambda: command(**options)))

    return run
