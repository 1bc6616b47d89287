"""Buttons of a page that another browser has made old, and those that cannot do what they say."""

from __future__ import annotations

import html
from pathlib import Path

from test_web import PORT, Browser

from strapwright.pages.fields.part_fields import shape_of
from strapwright.pages.form import raw_job
from strapwright.pages.workshop import Workshop
from strapwright.store import open_store
from strapwright.web import create_app


def test_a_button_whose_number_means_another_by_now_takes_nothing_out(tmp_path: Path) -> None:
    with open_store(tmp_path / "store") as store:
        shop = Workshop(store)
        mine, other = (Browser(create_app(shop, PORT)) for _ in range(2))
        root = mine.post("/demo", follow=False).headers["location"].removesuffix("/part")
        job = root.rpartition("/")[2]
        shown = shop.open(job)
        places = len(shape_of(raw_job(shown.text)))
        assert places == 7
        # Both see three bends; the other takes the first one out, and the second is first then.
        typed = {"base": str(shown.version), "shape.count": str(places)}
        other.post(f"{root}/part", data={**typed, "do": "drop-leg:2"})
        there = shop.open(job)
        assert there.version == shown.version + 1
        for button in ("drop-leg:4", "drop-leg:6"):
            page = html.unescape(mine.post(f"{root}/part", data={**typed, "do": button}).text)
            assert "changed elsewhere just now; look at it and try again" in page
            assert shop.open(job).text == there.text
        # One who has seen it may.
        seen = {"base": str(there.version), "shape.count": str(places - 2)}
        mine.post(f"{root}/part", data={**seen, "do": "drop-leg:4"})
        assert len(shape_of(raw_job(shop.open(job).text))) == places - 4
        # A field that saved itself at the same moment stands in no button's way.
        now = shop.open(job)
        base = {"base": str(now.version), "shape.count": "3"}
        other.post(f"{root}/part", data={**base, "part.quantity": "77", "do": "save"})
        mine.post(f"{root}/part", data={**base, "do": "add-hole"})
        assert "77" in shop.open(job).text
        # What a button cannot do is said.
        page = html.unescape(mine.post(f"{root}/part", data={**base, "do": "drop-leg:2"}).text)
        assert "a part has at least one bend" in page.lower()
