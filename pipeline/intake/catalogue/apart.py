"""The catalogue's cells read as a survey's are: in a child process under limits. What they say is checked in this one."""

from __future__ import annotations

from pipeline.intake.catalogue.faults import CatalogueFaults, Fault
from pipeline.intake.catalogue.whole import CatalogueRead, catalogue_of
from pipeline.reading import Sandbox
from pipeline.reading.book import UnreadableFileError


def read_apart(path: str) -> CatalogueRead:
    """The catalogue. Errors: CatalogueFaults; also where the file is no workbook, or cannot be read within the limits."""
    with Sandbox("pipeline.reading:read_book") as box:
        try:
            book = box.run(path)
        except UnreadableFileError as error:
            raise CatalogueFaults([Fault("", "", error.reason, error.remedy)]) from error
    return catalogue_of(book, path)
