"""The packet of a job: every sheet of it, in its order, at its scale."""

from __future__ import annotations

import io
import re

from pypdf import PdfReader
from test_web import Browser
from test_web_shop_work import RACK, brought, client, hanger, shelf, shop  # noqa: F401

from strapwright.sheets.job_packet import job_packet
from strapwright.sheets.typeset import compile_pdf


def test_a_packet_holds_every_sheet_of_the_job(client: Browser) -> None:  # noqa: F811
    job = brought(client, hanger())
    shelf(client, "rack", RACK)
    assert "files/packet.pdf" in client.get(f"/jobs/{job}/print").text
    raw = client.get(f"/jobs/{job}/files/packet.pdf").content
    read = PdfReader(io.BytesIO(raw))
    heads = [one["/Title"] for one in read.outline]
    assert heads == ["Setup sheet", "1:1 template", "Inspection sheet", "Cut list", "Tooling"]
    assert read.viewer_preferences is not None
    assert str(read.viewer_preferences["/PrintScaling"]) == "/None"
    begins = {one["/Title"]: read.get_destination_page_number(one) for one in read.outline}
    cuts = " ".join(read.pages[begins["Cut list"]].extract_text().split())
    assert "flat top shelf" in cuts
    single = PdfReader(io.BytesIO(client.get(f"/jobs/{job}/files/template.pdf").content))
    at = begins["1:1 template"]
    # Not a hair smaller: the template is cut out and laid on the bar.
    assert read.pages[at].mediabox == single.pages[0].mediabox
    assert read.pages[at].get_contents().get_data() == single.pages[0].get_contents().get_data()
    mark = re.findall(r"mark of this plan is ([0-9a-f]{8})", cuts)[0]
    assert mark in client.get(f"/cut?job={job}").text


def test_the_same_sheets_give_the_same_file() -> None:
    data = {"paper": "a4", "sizes": [], "labels": [], "mark": "x"}
    sheet = compile_pdf("cutlist.typ", data, {})
    assert job_packet([("one", sheet)]) == job_packet([("one", sheet)])
