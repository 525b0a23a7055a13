"""Workbooks as pages: a PDF beside each, made by LibreOffice where it is installed."""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path

PROGRAMS = ("soffice", "libreoffice")
SECONDS = 300
"""Longest that one workbook may take."""

NOT_INSTALLED = "No PDF was made: LibreOffice is not installed here. Install it and run again with --pdf; all else is done."


def converter() -> str:
    """The program that turns workbooks into pages; '' where there is none."""
    return next((found for name in PROGRAMS if (found := shutil.which(name))), "")


def pdfs(workbooks: Sequence[Path], step: Callable[[int], None]) -> list[str]:
    """Make a PDF beside each workbook that has none; a sentence for each that could not be made.

    A revision's workbook never changes, so a PDF that stands is left as it is.
    """
    program, failures = converter(), []
    missing = [book for book in workbooks if book.is_file() and not book.with_suffix(".pdf").exists()]
    if missing and not program:
        return [NOT_INSTALLED]
    with tempfile.TemporaryDirectory() as scratch:
        for done, book in enumerate(missing, 1):
            why = _convert(program, book, Path(scratch))
            if why:
                failures.append(f"{book} could not be turned into a PDF: {why}.")
            step(done)
    return failures


def _convert(program: str, book: Path, scratch: Path) -> str:
    """Turn one workbook into pages; why not, '' where it was done. The profile is its own: an open office does no harm."""
    profile = (scratch / "profile").as_uri()
    how = [f"-env:UserInstallation={profile}", "--headless", "--convert-to", "pdf", "--outdir", str(scratch)]
    try:
        done = subprocess.run([program, *how, str(book)], capture_output=True, text=True, timeout=SECONDS, check=False)
        made = scratch / f"{book.stem}.pdf"
        if done.returncode or not made.is_file():
            return " ".join(done.stderr.split())[:200] or "LibreOffice gave no pages"
        part = book.with_suffix(".pdf.part")
        shutil.copyfile(made, part)
        part.replace(book.with_suffix(".pdf"))
        made.unlink()
    except subprocess.TimeoutExpired:
        return f"LibreOffice took longer than {SECONDS} s"
    except OSError as error:
        return error.strerror or str(error)
    return ""
