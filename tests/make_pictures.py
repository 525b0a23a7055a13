"""Turns pages of output_examples into small pictures for the README; run by hand after the outputs were refreshed.

    python tests/make_pictures.py

Needs LibreOffice (soffice) and poppler (pdftoppm, pdftotext) on the path; it is no part of the tests.
"""

from __future__ import annotations

import subprocess
import tempfile
from pathlib import Path

from make_examples import OUTPUTS
from PIL import Image, ImageChops
from PIL.PngImagePlugin import PngInfo

PICTURES = OUTPUTS / "pictures"
MOST_BYTES = 60_000
WIDTHS = (1000, 900, 800, 700, 600)
"""Widths in pixels, tried until a picture is small enough."""

DOTS = 150  # pixels an inch of the page
FOOTER = 105  # pixels at the foot of a page that only say which page it is
COLOURS = 40
MARGIN = 12  # pixels of white left around what is printed

PAGES = (
    ("quote", "customers/Saltmarsh-Hall-Trust/Saltmarsh-Hall-Trust-r1.xlsx", "Quotation Saltmarsh-Hall-Trust-r1"),
    ("posts", "sites/NM-BRK/NM-BRK-r1.xlsx", "Posts: what goes on each"),
    ("kits", "sites/NM-BRK/NM-BRK-r1.xlsx", "Viable kits:"),
    ("shortfalls", "sites/NM-BRK/NM-BRK-r1.xlsx", "Shortfalls:"),
    ("loads", "sites/VF-102/VF-102-r1.xlsx", "Loads:"),
    ("drawings", "customers/Tern-Bay-Youth-League/Tern-Bay-Youth-League-r1.xlsx", "Drawings:"),
    ("portfolio", "portfolio.xlsx", "Portfolio of"),
    ("reach", "portfolio.xlsx", "Reach:"),
    ("correct", "returns/district/south_schools-marked.xlsx", "Please correct and send back"),
)
"""Name of the picture, workbook under output_examples, words at the head of its page."""


def run(*command: str) -> str:
    """What a program prints."""
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def printed(book: Path, folder: Path) -> Path:
    """The workbook as pages."""
    run("soffice", f"-env:UserInstallation={(folder / 'profile').as_uri()}", "--headless", "--convert-to", "pdf", "--outdir",
        str(folder), str(book))  # fmt: skip
    return folder / f"{book.stem}.pdf"


def page_with(pages: Path, words: str) -> int:
    """1-based number of the first page that has the words."""
    texts = run("pdftotext", "-layout", str(pages), "-").split("\f")
    return next(n for n, text in enumerate(texts, 1) if words in text)


def picture(pages: Path, number: int, folder: Path) -> Image.Image:
    """One page without its footer and its empty margins."""
    run(
        "pdftoppm", "-png", "-r", str(DOTS), "-f", str(number), "-l", str(number), "-singlefile", str(pages), str(folder / "page")
    )
    with Image.open(folder / "page.png") as page:
        full = page.convert("RGB").crop((0, 0, page.width, page.height - FOOTER))
    box = ImageChops.difference(full, Image.new("RGB", full.size, "white")).getbbox() or (0, 0, *full.size)
    left, top, right, bottom = box
    right, bottom = min(right + MARGIN, full.width), min(bottom + MARGIN, full.height)
    return full.crop((max(0, left - MARGIN), max(0, top - MARGIN), right, bottom))


def save(page: Image.Image, path: Path) -> None:
    """Save with few colours, as wide as the limit of bytes allows."""
    for width in WIDTHS:
        size = (width, round(page.height * width / page.width))
        small = page.resize(size, Image.Resampling.LANCZOS).quantize(colors=COLOURS, kmeans=3, dither=Image.Dither.NONE)
        small.save(path, optimize=True, pnginfo=PngInfo())
        if path.stat().st_size <= MOST_BYTES:
            return
    raise SystemExit(f"{path.name} has more than {MOST_BYTES} bytes at every width")


def main() -> None:
    """Make every picture."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        pages = {book: printed(OUTPUTS / book, folder) for book in dict.fromkeys(b for _, b, _ in PAGES)}
        for title, book, words in PAGES:
            save(picture(pages[book], page_with(pages[book], words), folder), PICTURES / f"{title}.png")


if __name__ == "__main__":
    main()
