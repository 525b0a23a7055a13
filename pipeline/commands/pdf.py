"""`postquote quote --pdf`: each customer's quotation as pages beside it."""

from __future__ import annotations

import csv
from pathlib import Path

from pipeline.output.pdf import pdfs
from pipeline.run.request import Progress


def make_pdfs(folder: Path, progress: Progress) -> list[str]:
    """A PDF beside each quotation that the newest run of `folder` lists; a sentence for each that could not be made."""
    with (folder / "data" / "customers.csv").open(encoding="utf-8", newline="") as f:
        books = [folder / row["workbook"] for row in csv.DictReader(f) if row["workbook"]]
    inside = [book for book in books if book.resolve().is_relative_to(folder.resolve())]
    progress.stage("Making PDFs", len(inside))
    return pdfs(inside, progress.step)
