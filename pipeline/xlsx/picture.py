"""Pictures on a page: how large they stand there."""

from __future__ import annotations

import io

from pipeline.xlsx.paper import DOTS


def fitting(data: bytes, wide: int, high: int) -> tuple[float, float]:
    """Scale at which a PNG or JPEG picture fits `wide` x `high` pixels, never enlarged; its height then [pixels]."""
    from PIL import Image

    with Image.open(io.BytesIO(data)) as shown:
        dots = shown.info.get("dpi", (DOTS, DOTS))
        size = [length * DOTS / (dot or DOTS) for length, dot in zip(shown.size, dots, strict=True)]
    scale = min(1.0, wide / size[0], high / size[1])
    return scale, size[1] * scale
