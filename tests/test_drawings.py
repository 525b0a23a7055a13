"""The elevation's coordinates against the computed heights (design sections 5 and 7)."""

from __future__ import annotations

import pytest
from books_made import FT, IN, kit, post, setting, survey_row

from pipeline.sheets.assembly import alike, assembly
from pipeline.sheets.drawing import elevation

CASES = [
    # height, court, top, lowered, extension, added
    (8.5 * FT, 0.0, 10 * FT, 0.0, "", 0.0),
    (9.25 * FT, 0.1, 10 * FT, 0.13, "", 0.0),
    (7.0 * FT, -0.2, 10 * FT, 0.11, "EX-24", 24 * IN),
]


@pytest.mark.parametrize(("height", "court", "top", "lowered", "extension", "added"), CASES)
def test_elevation_stands_at_the_computed_heights(height, court, top, lowered, extension, added):
    items = setting().items
    one = kit(1, top=top, lowered=lowered, extension=extension, added=added)
    e = elevation(assembly(post("1", height=height, court_rise=court), one, items), feet=True)
    board, ring, clamps = e.rect("board"), e.rect("ring"), e.rect("clamps")
    assert e.rect("post").top == pytest.approx(height)
    assert e.rect("post").width == pytest.approx(3.5 * IN)
    assert ring.top == pytest.approx(top + court), "ring height is above the playing surface"
    assert e.rect("court").top == pytest.approx(court)
    # Source: FIBA Basketball Equipment (memory): ring 150 mm above the board's lower edge, 151 mm off it, 450 mm across
    assert ring.top - board.y == pytest.approx(0.150)
    assert ring.right - board.right == pytest.approx(0.151 + 0.450)
    assert board.height == pytest.approx(items["Boards"]["BD-01"]["height_m"])
    assert clamps.top == pytest.approx(height + added - lowered)
    assert clamps.height == pytest.approx(items["Mounts"]["MT-01"]["clamp_length_m"])
    upper = items["Extensions"]["EX-24"]["upper_size_m"] if extension else 3.5 * IN
    assert board.right - upper / 2 == pytest.approx(items["Mounts"]["MT-01"]["overhang_m"])
    lines = {d.name: d for d in e.dimensions}
    assert lines["height"].y2 - lines["height"].y == pytest.approx(height)
    assert lines["ring"].y2 - lines["ring"].y == pytest.approx(top)
    if extension:
        assert e.rect("extension").top == pytest.approx(height + added)
        assert e.rect("extension").y == pytest.approx(height)
    assert all(r.x >= e.left and r.right <= e.right and r.y >= e.bottom and r.top <= e.top for r in e.rects)


def test_posts_that_look_alike_share_a_drawing():
    other = post("4", height=8.0 * FT)
    shown = alike((post("1"), post("2"), other, post("5", kits=0), post("6")), setting().items)
    assert [[p.row.post_code for p in posts] for posts in shown.values()] == [["1", "2", "6"], ["4"]]


def test_court_begins_where_the_survey_says():
    row = survey_row("1", post_to_end_line=0.4)
    e = elevation(assembly(post("1", row=row), kit(1), setting().items), feet=True)
    assert e.rect("court").x == pytest.approx(3.5 * IN / 2 + 0.4)
