"""Rack and crib in the store, and searches that outlive the server that ran them."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from strapwright.store import Missing, export_files, import_one, new_id, open_store
from strapwright.store.database import FILE

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
RACK = 'format = 1\n[[stock]]\nkind = "shaft"\nsize = "25 mm"\nlength = "500 mm"\n'
CRIB = 'format = 1\nunits = "metric"\n[crib]\ndrills = ["metric 1 to 13 by 0.5"]\n'
EARLIER = Path(__file__).parent / "data" / "store_schema_0001.sql"


def test_rack_and_crib_are_told_by_their_tables_judged_and_exported(tmp_path: Path) -> None:
    with open_store(tmp_path) as store:
        rack = import_one(store, "rack.toml", RACK.encode(), AT)
        crib = import_one(store, "crib.toml", CRIB.encode(), AT)
        assert (rack.kind, rack.sound, crib.kind, crib.sound) == ("rack", True, "crib", True)
        store.save(rack.id, RACK.replace("25 mm", "25 mm x 3"), 1, AT)
        store.save(crib.id, CRIB.replace("1 to 13", "13 to 1"), 1, AT)
        assert "a shaft has one diameter" in (store.item(rack.id).trouble or "")
        assert "does not rise" in (store.item(crib.id).trouble or "")
        assert {"rack.toml", "crib.toml"} < set(export_files(store))


def test_a_store_of_the_first_schema_takes_a_rack_and_refuses_other_kinds(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / FILE)) as made:
        made.executescript(EARLIER.read_text(encoding="utf-8"))
    with open_store(tmp_path) as store:
        store.create("rack", "rack", RACK, AT)
    with (
        closing(sqlite3.connect(tmp_path / FILE)) as opened,
        pytest.raises(sqlite3.IntegrityError, match="ck_items_kind"),
    ):
        opened.execute("UPDATE items SET kind = 'shelf'")


def test_a_search_ends_once_and_the_latest_of_its_job_is_found(tmp_path: Path) -> None:
    with open_store(tmp_path) as store:
        job = store.create("job", "hanger", "", AT)
        assert store.searches.latest(job.id) is None
        first = store.searches.begin(job.id, "aa", AT)
        second = store.searches.begin(job.id, "bb", AT + timedelta(seconds=1))
        store.searches.end(first.id, "done", result="{}")
        store.searches.end(first.id, "stopped", "too late")
        ended = store.searches.get(first.id)
        assert (ended.state, ended.said, ended.result) == ("done", "", "{}")
        with pytest.raises(Missing):
            store.searches.begin(new_id(), "aa", AT)
        with pytest.raises(Missing):
            store.searches.get(new_id())
    with open_store(tmp_path) as store:
        store.searches.end_all("the server was stopped")
        found = store.searches.latest(job.id)
        assert found is not None
        assert (found.id, found.state, found.asked) == (second.id, "stopped", "bb")
        assert store.searches.get(first.id).state == "done"
