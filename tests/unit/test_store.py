"""The store: every version kept, the later saving told, drafts that outlive a stopped server."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest

from strapwright.errors import InputError
from strapwright.shop_files.reading_job import read_job
from strapwright.store import (
    Conflict,
    Kind,
    Missing,
    Store,
    StoreError,
    drafts,
    new_id,
    open_store,
    verify_file,
)
from strapwright.store.drafts import KEPT

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
LATER = AT + timedelta(minutes=5)
JOB = """# lies flat on the slip
format = 1
[part]
name = "fender hanger"
quantity = 4
bar = "flat 6 x 40 mm"
material = "S235JR"
shape = ["70 mm", "up 90", "120 mm"]
"""
PRESS = 'format = 1\n[press]\nbore = "63 mm"\nrelief = "140 bar"\n'
TOOLING = """format = 1
[tooling]
ram_side = "nose"
nose = { radius = "12 mm" }
shoulders = { radius = "10 mm", opening = "55 mm" }
"""
LOT = 'format = 1\n[lot]\nyield = "310 MPa"\n'


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with open_store(tmp_path / "shop" / "store") as opened:
        yield opened


def test_what_was_saved_is_there_after_a_restart(tmp_path: Path) -> None:
    odd = "\N{BYTE ORDER MARK}# Ö ½ in\r\n\tformat = 1  \n\n\n"
    with open_store(tmp_path) as store:
        made = store.create("job", "  Fender hanger ", odd, AT, "from the old book")
    with open_store(tmp_path) as store:
        assert store.item(made.id) == made
        assert made.name == "Fender hanger"
        assert (made.created, made.current, made.archived) == (AT, 1, False)
        assert store.text_of(made.id) == odd
        (version,) = store.history(made.id)
        assert (version.number, version.saved_at, version.note) == (1, AT, "from the old book")
    verify_file(tmp_path / "store.db")


def test_every_version_stays_and_can_come_back(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)
    six = JOB.replace("quantity = 4", "quantity = 6")
    assert store.save(item.id, six, 1, LATER).number == 2
    assert store.item(item.id).quantity == 6
    back = store.restore_version(item.id, 1, 2, LATER)
    assert (back.number, back.note) == (3, "version 1 again")
    assert [store.text_of(item.id, number) for number in (1, 2, 3)] == [JOB, six, JOB]
    assert [version.number for version in store.history(item.id)] == [3, 2, 1]
    now = store.item(item.id)
    assert (now.quantity, now.current, now.created, now.updated) == (4, 3, AT, LATER)


def test_the_later_saving_is_told_and_overwrites_nothing(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)
    store.save(item.id, JOB + "# phone\n", 1, LATER)
    with pytest.raises(
        Conflict, match=r"someone saved version 2 while you were editing version 1"
    ) as told:
        store.save(item.id, JOB + "# bench\n", 1, LATER)
    assert (told.value.current.number, told.value.base) == (2, 1)
    with pytest.raises(Conflict):
        store.restore_version(item.id, 1, 1, LATER)
    assert store.text_of(item.id) == JOB + "# phone\n"
    assert len(store.history(item.id)) == 2


def test_the_same_text_makes_no_version_so_a_saving_may_be_sent_twice(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)
    first = store.save(item.id, JOB + "#\n", 1, LATER)
    assert store.save(item.id, JOB + "#\n", 1, LATER + timedelta(1)) == first
    assert store.item(item.id).updated == LATER
    again = store.create("job", "hanger", JOB + "#\n", LATER, item_id=item.id)
    assert (again.id, again.current) == (item.id, 2)
    with pytest.raises(Conflict, match="while you were editing a new one"):
        store.create("job", "hanger", JOB, LATER, item_id=item.id)
    assert len(store.list()) == 1


def test_of_many_savings_at_once_from_one_version_exactly_one_is_taken(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)

    def save(number: int) -> str:
        try:
            store.save(item.id, f"{JOB}# {number}\n", 1, LATER)
        except Conflict:
            return "told"
        return "taken"

    with ThreadPoolExecutor(8) as several:
        assert sorted(several.map(save, range(16))) == ["taken"] + ["told"] * 15
    assert len(store.history(item.id)) == 2


def test_a_text_that_cannot_be_read_is_kept_with_the_sentence(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)
    half = JOB.replace('"S235JR"', '"S235J')
    version = store.save(item.id, half, 1, LATER)
    now = store.item(item.id)
    assert not version.sound
    assert not now.sound
    assert now.trouble == version.trouble
    assert now.trouble is not None
    assert "(line 7): this is not a TOML file" in now.trouble
    assert (now.material, now.bar, now.quantity) == (None, None, None)
    assert store.text_of(item.id) == half
    assert store.save(item.id, JOB, 2, LATER).sound
    now = store.item(item.id)
    assert (now.material, now.bar, now.quantity) == ("S235JR", "flat 6 x 40 mm", 4)


@pytest.mark.parametrize(
    ("kind", "text", "slip"),
    [
        ("press", PRESS, ("bore", "boer")),
        ("tooling", TOOLING, ("opening", "opning")),
        ("lot", LOT, ("yield", "yeild")),
    ],
)
def test_shop_files_are_judged_as_what_they_are(
    store: Store, kind: Kind, text: str, slip: tuple[str, str]
) -> None:
    assert store.create(kind, "good", text, AT).sound
    trouble = store.create(kind, "slip", text.replace(*slip), AT).trouble
    assert trouble is not None
    assert f'did you mean "{slip[0]}"' in trouble
    wrong = store.create(kind, "wrong", JOB, AT).trouble
    assert wrong is not None
    assert "part" in wrong


def test_a_job_finds_the_press_it_names(store: Store) -> None:
    named = JOB.replace("format = 1\n", 'format = 1\npress = "Big press.toml"\n')
    alone = store.create("job", "hanger", named, AT)
    assert alone.trouble is not None
    assert "there is no such file beside the job" in alone.trouble
    press = store.create("press", "Big press", PRESS, AT)
    assert press.file == "Big press.toml"
    assert store.save(alone.id, named + "#\n", 1, LATER).sound
    store.rename(press.id, "the one by the door", LATER)  # and is found all the same
    job = read_job(named, beside=store.beside(named))
    assert job.press is not None
    assert job.press.bore == 63.0
    assert store.beside(JOB) == {}
    assert store.beside("no TOML at all") == {}


def test_two_of_one_name_have_files_of_their_own(store: Store) -> None:
    files = [store.create("job", name, JOB, AT).file for name in ("Hook", "hook", "a/../b", "CON")]
    assert files == ["Hook.toml", "hook 2.toml", "a-..-b.toml", "item CON.toml"]


def test_list_and_search(store: Store) -> None:
    store.create("press", "Press", PRESS, AT)
    hook = store.create("job", "Öse 100%", JOB, AT)
    hanger = store.create("job", "hanger", JOB.replace("flat 6 x 40", "flat 8 x 50"), LATER)
    assert [item.name for item in store.list()] == ["hanger", "Öse 100%", "Press"]
    assert [item.id for item in store.list("job", "S235jr FLAT")] == [hanger.id, hook.id]
    assert [item.id for item in store.list(search="öSE")] == [hook.id]
    assert [item.id for item in store.list(search="8 x 50")] == [hanger.id]
    assert [item.id for item in store.list(search="0%")] == [hook.id]  # % is itself
    assert store.list(search="_") == ()
    assert [item.id for item in store.recent()] == [hanger.id, hook.id]
    store.rename(hook.id, "eye", LATER + timedelta(1))
    assert [item.name for item in store.recent(limit=1)] == ["eye"]
    assert store.list(search="öse", kind="press") == ()


def test_put_away_and_back(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)
    assert store.archive(item.id).archived
    assert (store.list(), store.recent()) == ((), ())
    assert [one.id for one in store.list(archived=True)] == [item.id]
    assert store.text_of(item.id) == JOB
    assert store.unarchive(item.id) == item


def test_a_draft_outlives_a_stopped_server(tmp_path: Path) -> None:
    fields = {"leg": "3 1/2", "name": "<b>Öse</b> \0 '"}
    fresh = new_id()
    with open_store(tmp_path) as store:
        item = store.create("job", "hanger", JOB, AT)
        store.drafts.put(item.id, "phone", "job", 1, {"leg": "3"}, AT)
        store.drafts.put(item.id, "phone", "job", 1, fields, LATER)
        store.drafts.put(item.id, "bench", "job", 1, {}, AT)
        store.drafts.put(fresh, "phone", "press", None, {"bore": "2 1/"}, AT)
    with open_store(tmp_path) as store:
        kept = store.drafts.get(item.id, "phone")
        assert kept is not None
        assert (dict(kept.fields), kept.base, kept.updated) == (fields, 1, LATER)
        assert [draft.item for draft in store.drafts.of("phone")] == [item.id, fresh]
        store.save(item.id, JOB + "#\n", 1, LATER, who="phone")
        assert store.drafts.get(item.id, "phone") is None  # done with
        assert store.drafts.get(item.id, "bench") is not None  # somebody else's
        assert store.create("press", "p", PRESS, LATER, item_id=fresh, who="phone").id == fresh
        assert store.drafts.of("phone") == ()
        store.drafts.drop(item.id, "nobody")


def test_a_draft_that_nobody_touches_expires(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(drafts, "ALWAYS", 1)
    item = store.create("job", "hanger", JOB, AT)

    def browsers() -> list[str]:
        return [who for who in ("phone", "bench", "hall") if store.drafts.get(item.id, who)]

    store.drafts.put(item.id, "phone", "job", 1, {"leg": "3"}, AT)
    store.drafts.put(item.id, "bench", "job", 1, {"leg": "4"}, AT + KEPT)
    assert browsers() == ["phone", "bench"]
    store.drafts.put(item.id, "hall", "job", 1, {"leg": "5"}, AT + KEPT + timedelta(seconds=1))
    assert browsers() == ["bench", "hall"]


def test_a_saving_that_is_refused_leaves_the_draft(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)
    store.save(item.id, JOB + "#\n", 1, AT)
    store.drafts.put(item.id, "phone", "job", 1, {"leg": "3"}, AT)
    with pytest.raises(Conflict):
        store.save(item.id, JOB + "# mine\n", 1, LATER, who="phone")
    assert store.drafts.get(item.id, "phone") is not None


def test_facts_about_the_store(store: Store) -> None:
    assert store.setting("greeted") is None
    store.set_setting("greeted", "yes")
    store.set_setting("greeted", "twice")
    assert store.setting("greeted") == "twice"


@pytest.mark.parametrize(
    ("kind", "name", "text", "note", "says"),
    [
        ("job", "  ", JOB, "", "name: this is empty; give it a name."),
        ("job", "a\nb", JOB, "", "this is not one line of at most 80 printable characters"),
        ("job", "x" * 81, JOB, "", "this is not one line of at most 80 printable characters"),
        ("boat", "a", JOB, "", "kind 'boat': this kind is not kept; give job, press"),
        ("job", "a", "#" * 1_000_001, "", "text: it has 1.0 MB, and at most 1 MB is kept"),
        ("job", "a", "\0", "", "text: it is binary and not text"),
        ("job", "a", "\ud800", "", "text: it holds a broken character"),
        ("job", "a", JOB, "n" * 501, "note: it has more than 500 characters"),
    ],
)
def test_what_cannot_be_kept_is_refused_and_leaves_nothing(
    store: Store, kind: Kind, name: str, text: str, note: str, says: str
) -> None:
    with pytest.raises(InputError) as refused:
        store.create(kind, name, text, AT, note)
    assert says in str(refused.value)
    assert store.list() == ()


def test_wrong_addresses_are_told(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)
    for asked in (
        lambda: store.item("' OR 1=1"),
        lambda: store.history(""),
        lambda: store.text_of(new_id()),
        lambda: store.save(new_id(), JOB, 1, AT),
        lambda: store.rename(new_id(), "x", AT),
        lambda: store.archive(new_id()),
    ):
        with pytest.raises(Missing, match="there is no item of this address"):
            asked()
    for number in (0, -1, 2, 2**70):
        with pytest.raises(Missing, match=f"there is no version {number}"):
            store.text_of(item.id, number)
    for bad in ("../../x", "", "A" * 32):
        with pytest.raises(InputError, match="this is not an id of an item"):
            store.create("job", "x", JOB, AT, item_id=bad)
    for who in ("", "a b", "x" * 65):
        with pytest.raises(InputError, match="this is no id"):
            store.drafts.put(item.id, who, "job", 1, {}, AT)
    with pytest.raises(InputError, match=r"draft: it has 1\.0 MB"):
        store.drafts.put(item.id, "phone", "job", 1, {"leg": "x" * 1_000_000}, AT)


def test_moments_come_back_as_the_same_moment_and_need_their_zone(store: Store) -> None:
    away = datetime(2031, 5, 4, 8, 0, tzinfo=timezone(timedelta(hours=2)))
    item = store.create("job", "hanger", JOB, away)
    assert store.item(item.id).created == AT
    with pytest.raises(Exception, match="carries its time zone"):
        store.rename(item.id, "x", datetime(2031, 5, 4))  # noqa: DTZ001 - that is the point
    assert store.item(item.id).name == "hanger"


def test_a_full_disk_is_told_and_nothing_is_half_there(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)
    engine = store.database._engine
    assert engine is not None
    with engine.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
        connection.exec_driver_sql(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(StoreError, match="the disk is full, nothing was saved; make room"):
        store.save(item.id, JOB + "#" * 100_000, 1, LATER)
    assert store.item(item.id) == item
    assert len(store.history(item.id)) == 1


def test_a_closed_store_says_so(tmp_path: Path) -> None:
    store = open_store(tmp_path)
    store.close()
    store.close()
    with pytest.raises(StoreError, match="the store is closed; open it again"):
        store.list()
