"""The seller's logo: a PNG or JPEG file beside the catalogue, looked at whole before anything is written."""

from __future__ import annotations

import io
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from pipeline.intake.catalogue.cell import Wrong
from schemas.catalogue import LOGO_MOST_BYTES, LOGO_SIDES, LOGO_SUFFIXES


@dataclass(frozen=True)
class Logo:
    """A picture that can be put on a page."""

    name: str
    data: bytes
    width: int  # [px]
    height: int  # [px]


def read_logo(catalogue: str, name: str) -> Logo | Wrong:
    """The picture called `name` in the folder of the catalogue at `catalogue`, or what is wrong with it."""
    folder = Path(catalogue).resolve().parent
    hint = "Put a PNG or JPEG file beside the catalogue and type its name alone, such as logo.png."
    if Path(name).name != name or "\\" in name or ":" in name or (folder / name).resolve().parent != folder:
        return Wrong(f"“{name}” is not beside the catalogue.", hint)
    path = folder / name
    try:
        if not path.is_file():
            return Wrong(f"There is no file “{name}” beside the catalogue.", _near(folder, name) or hint)
        if path.stat().st_size > LOGO_MOST_BYTES:
            return Wrong(f"The logo “{name}” is above 1 MB.", "Save it smaller: a logo of 600 pixels across is enough.")
        data = path.read_bytes()
    except OSError as error:
        return Wrong(f"The logo “{name}” could not be read: {error.strerror or error}.", hint)
    return _picture(name, data)


def _near(folder: Path, name: str) -> str:
    """A hint at a picture beside the catalogue whose name is near."""
    there = {p.name.casefold(): p.name for p in sorted(folder.iterdir()) if p.suffix.casefold() in LOGO_SUFFIXES}
    near = get_close_matches(name.casefold(), list(there), n=1, cutoff=0.6)
    return f"Did you mean {there[near[0]]}?" if near else ""


def _picture(name: str, data: bytes) -> Logo | Wrong:
    """The picture in `data`; it is decoded whole, so that a torn one does not reach a quotation."""
    from PIL import Image

    hint = "Save it as a PNG or JPEG picture again."
    try:
        with Image.open(io.BytesIO(data), formats=("PNG", "JPEG")) as picture:
            width, height = picture.size
            if min(width, height) < LOGO_SIDES[0] or max(width, height) > LOGO_SIDES[1]:
                size = f"The logo “{name}” is {width} x {height} pixels."
                return Wrong(size, f"Save it with sides from {LOGO_SIDES[0]} to {LOGO_SIDES[1]} pixels; 600 across is enough.")
            picture.load()
    except Exception:  # whatever a torn or hostile picture raises, it is no picture
        return Wrong(f"The file “{name}” is no PNG or JPEG picture.", hint)
    return Logo(name, data, width, height)
