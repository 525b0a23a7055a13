"""Opens workbooks in the tests: with openpyxl, and after a recalculation by LibreOffice."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
import zipfile
from pathlib import Path

import openpyxl
import pytest

OFFICE = shutil.which("soffice")


def opened(data: bytes, values: bool = True) -> openpyxl.Workbook:
    """The workbook with stored results (or with formulas)."""
    return openpyxl.load_workbook(io.BytesIO(data), data_only=values)


def words(book: openpyxl.Workbook, sheet: str) -> str:
    """All text of a sheet, a row a line."""
    return "\n".join(" | ".join(str(v) for v in row if v is not None) for row in book[sheet].iter_rows(values_only=True))


def formulas(data: bytes) -> dict[tuple[str, str], str]:
    """Formula by sheet and cell."""
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in opened(data, values=False)
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    }


def without_results(data: bytes) -> bytes:
    """The same workbook with no stored result, so that whoever opens it must compute."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name.startswith("xl/worksheets/sheet"):
                content = re.sub(rb"(</f>)<v>[^<]*</v>", rb"\1", content)
            new.writestr(name, content)
    return made.getvalue()


def recalculated(data: bytes, folder: Path) -> openpyxl.Workbook:
    """The workbook as LibreOffice computes it from nothing."""
    if OFFICE is None:
        pytest.skip("LibreOffice is not installed")
    source = folder / "book.xlsx"
    source.write_bytes(without_results(data))
    profile = f"-env:UserInstallation=file://{folder / 'profile'}"
    target = folder / "out"
    command = [OFFICE, "--headless", profile, "--convert-to", "xlsx", "--outdir", str(target), str(source)]
    subprocess.run(command, check=True, capture_output=True, timeout=100)
    return openpyxl.load_workbook(target / "book.xlsx", data_only=True)
