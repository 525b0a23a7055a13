"""Marked returns keep what openpyxl alone would lose: pictures, shapes, charts."""

from __future__ import annotations

import io
import zipfile

import openpyxl
from test_marks import BAD, GOOD, HEADS, _marked, _open

from pipeline.marking.correction_list import TITLE


def test_drawings_and_charts_of_the_senders_are_kept(tmp_path) -> None:
    """Our own form with its drawing, and a sheet with a picture and a chart, filled in and marked."""
    import xlsxwriter

    path = str(tmp_path / "drawn.xlsx")
    with xlsxwriter.Workbook(path) as made:
        ws = made.add_worksheet("Survey")
        for n, row in enumerate((HEADS, GOOD, BAD)):
            ws.write_row(n, 0, ["" if v is None else v for v in row])
        ws.insert_textbox("K2", "the gate is here")
        ws.insert_image("K9", "dot.png", {"image_data": io.BytesIO(DOT)})
        chart = made.add_chart({"type": "column"})
        chart.add_series({"values": "=Survey!$E$2:$E$3"})
        made.add_worksheet("Plan").insert_chart("A1", chart)
    result, content = _marked(path, "drawn.xlsx")
    assert result.queries
    package = zipfile.ZipFile(io.BytesIO(content))
    names = package.namelist()
    assert "xl/media/image1.png" in names
    assert "xl/charts/chart1.xml" in names
    assert b"the gate is here" in package.read("xl/drawings/drawing1.xml")
    for name in names:
        if name.endswith((".xml", ".rels", ".vml")):
            openpyxl.xml.functions.fromstring(package.read(name))
    types = package.read("[Content_Types].xml").decode()
    assert (
        types.count('"/xl/drawings/drawing1.xml"')
        == types.count('"/xl/charts/chart1.xml"')
        == types.count('Extension="png"')
        == 1
    )
    wb = _open(content)
    assert wb.sheetnames == [TITLE, "Survey", "Plan"]
    assert len(wb["Plan"]._charts) == 1
    assert wb["Survey"]["E3"].comment


DOT = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c4890000000d49444154789c6360f8cfc000000301010018dd8db00000000049454e44ae426082"
)
"""A picture of one dot (PNG)."""
