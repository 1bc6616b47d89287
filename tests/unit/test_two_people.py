"""Two people at one job: each knows of the other, and changes come to both."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from test_sharing import DOOR, PORT, Clock, Phone

from strapwright.pages.sharing.device_passes import Passes
from strapwright.pages.sharing.sharing_now import Opener, SharingNow
from strapwright.pages.sharing.who_looks import GONE_AFTER, OWN_MACHINE, Lookers, also_looking
from strapwright.pages.workshop import Workshop
from strapwright.store import open_store

TABS = [f"{number:032x}" for number in range(1, 6)]


class Shop:
    """One store with the machine that serves it and two phones, each by its own address."""

    def __init__(self, workshop: Workshop, clock: Clock) -> None:
        workshop.lookers = Lookers(clock)
        self.clock = clock
        self.sharing = SharingNow(Passes(workshop.store))
        self.sharing.opener = Opener(open=lambda _: DOOR, shut=lambda: None)
        self.sharing.begin(secure=False)
        self.job = workshop.demo().id
        self.desk = Phone(workshop, self.sharing, "127.0.0.1")
        self.desk.server = ("127.0.0.1", PORT)
        self.desk.headers |= {"host": f"127.0.0.1:{PORT}", "origin": f"http://127.0.0.1:{PORT}"}
        self.phones = [self.phone(workshop, name) for name in ("press", "saw")]

    def phone(self, workshop: Workshop, name: str, rights: str = "work") -> Phone:
        made = Phone(workshop, self.sharing, f"192.168.7.{len(name) + 30}")
        made.join(self.sharing.invite(name, "work" if rights == "work" else "look", 1))
        for one in self.sharing.passes.all():
            if not one.invitation and one.name == "device":
                self.sharing.passes.rename(one.id, name)
        return made

    def looks(self, who: Phone, tab: int, *, left: bool = False) -> str:
        """What a page that is looked at is told of others."""
        path = f"/live/{self.job}/now?tab={TABS[tab]}{'&left=1' if left else ''}"
        answer = who.get(path)
        assert answer.status_code == 200, answer.text
        return str(answer.json()["others"])


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    with open_store(tmp_path / "store") as store:
        yield Shop(Workshop(store), Clock())


def test_each_is_told_who_else_looks_and_nobody_of_himself(shop: Shop) -> None:
    press, saw = shop.phones
    assert shop.looks(press, 0) == ""
    assert shop.looks(press, 1) == ""  # a second page of the same phone is nobody else
    assert shop.looks(saw, 2) == "Also looking: press."
    assert shop.looks(press, 0) == "Also looking: saw."
    assert shop.looks(shop.desk, 3) in (  # in the order of their passes, which is by chance
        "Also looking: press, saw.",
        "Also looking: saw, press.",
    )
    assert OWN_MACHINE in shop.looks(saw, 2)
    # The desk calls itself nothing, in a second window neither.
    assert OWN_MACHINE not in shop.looks(shop.desk, 4)


def test_who_leaves_is_gone_at_once_and_who_sleeps_after_the_stated_time(shop: Shop) -> None:
    press, saw = shop.phones
    shop.looks(press, 0)
    shop.looks(press, 1)
    shop.looks(saw, 2)
    shop.looks(press, 0, left=True)
    assert shop.looks(saw, 2) == "Also looking: press."  # its other page is still looked at
    shop.looks(press, 1, left=True)
    assert shop.looks(saw, 2) == ""
    shop.looks(press, 0)
    shop.clock.now += GONE_AFTER - 0.1
    assert shop.looks(saw, 2) == "Also looking: press."
    shop.clock.now += 0.2
    assert shop.looks(saw, 2) == ""


def test_a_device_is_called_by_the_name_it_has_now_and_one_shut_out_goes(shop: Shop) -> None:
    press, saw = shop.phones
    shop.looks(press, 0)
    known = next(one for one in shop.sharing.passes.all() if one.name == "press")
    shop.sharing.passes.rename(known.id, "by the window")
    shop.looks(press, 0)
    assert shop.looks(saw, 2) == "Also looking: by the window."
    shop.sharing.passes.revoke(known.id)
    assert press.get(f"/live/{shop.job}/now?tab={TABS[0]}").status_code == 401
    shop.clock.now += GONE_AFTER + 0.1
    assert shop.looks(saw, 2) == ""


def test_other_jobs_and_pages_that_name_themselves_wrongly_are_nobody(shop: Shop) -> None:
    press, saw = shop.phones
    other = press.ask("POST", f"/jobs/{shop.job}/copy").headers["location"].split("/")[2]
    assert press.get(f"/live/{other}/now?tab={TABS[0]}").json()["others"] == ""
    assert shop.looks(saw, 2) == ""
    for wrong in ("", "x" * 32, "1", "<b>", "f" * 4000):
        assert press.get(f"/live/{shop.job}/now", params={"tab": wrong}).status_code == 200
    assert shop.looks(saw, 2) == ""


def test_many_names_are_counted_and_many_pages_hold_no_memory() -> None:
    assert also_looking(tuple("abcde")) == "Also looking: a, b, c and 2 more."
    clock = Clock()
    lookers = Lookers(clock)
    for number in range(2000):
        lookers.here("job", f"{number:08x}", f"{number:04}", f"device {number}")
    assert len(lookers.others("job", "")) == 400


def test_what_one_saves_and_logs_the_other_is_told(shop: Shop) -> None:
    press, saw = shop.phones
    first = saw.get(f"/live/{shop.job}/now?tab={TABS[2]}").json()
    moved = press.ask("POST", f"/jobs/{shop.job}/bends", data={"do": "natural"})
    assert moved.status_code == 303
    press.ask("POST", f"/jobs/{shop.job}/part", data={"base": "1", "part.quantity": "7"})
    second = saw.get(f"/live/{shop.job}/now?tab={TABS[2]}").json()
    assert second["version"] > first["version"]
    assert second["readings"] == first["readings"] == 0
    kept = press.ask(
        "POST", f"/jobs/{shop.job}/log",
        data={"part": "1", "bend": "1", "angle": "88", "sure": "yes"},
    )  # fmt: skip
    assert kept.status_code == 303, kept.text
    assert saw.get(f"/live/{shop.job}/now").json()["readings"] == 1
    assert 'data-readings="1"' in saw.get(f"/jobs/{shop.job}/bends").text
