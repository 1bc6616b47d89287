"""Sharing on the shop's network: who gets in, who does not, and what they may do."""

from __future__ import annotations

import asyncio
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest

from strapwright.errors import InputError
from strapwright.pages.sharing.device_passes import MOST_PASSES, Passes
from strapwright.pages.sharing.guess_limit import FREE_TRIES, TRIES_OF_ALL, GuessLimit
from strapwright.pages.sharing.sharing_now import Door, Opener, SharingNow
from strapwright.pages.workshop import Workshop
from strapwright.shared_serving import SharedServer, listen, read_address
from strapwright.store import Store, open_store
from strapwright.web import create_app
from strapwright.web.request_guard import DEVICE, Guard

PORT = 8117
SHOP = "192.168.7.20"
DOOR = Door(address=SHOP, port=PORT)


class Clock:
    now = 1_800_000_000.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with open_store(tmp_path / "store") as kept:
        yield kept


@pytest.fixture
def sharing(store: Store, clock: Clock) -> SharingNow:
    made = SharingNow(Passes(store, clock), GuessLimit(clock))
    made.opener = Opener(open=lambda _: DOOR, shut=lambda: None)
    made.begin(secure=False)
    return made


class Phone:
    """Asks over the shop's network, or as whoever the test wants it to be."""

    def __init__(self, shop: Workshop, sharing: SharingNow, address: str = "192.168.7.31") -> None:
        self.app = create_app(shop, PORT, sharing)
        self.address = address
        self.cookies: dict[str, str] = {}
        self.headers = {"host": DOOR.host, "origin": DOOR.origin, "accept": "application/json"}
        self.server = (SHOP, PORT)

    def ask(self, method: str, path: str, **what: Any) -> httpx.Response:
        async def asked() -> httpx.Response:
            async def app(scope: Any, receive: Any, send: Any) -> None:
                await self.app(scope | {"server": self.server}, receive, send)

            transport = httpx.ASGITransport(app=app, client=(self.address, 50000))
            async with httpx.AsyncClient(
                transport=transport, base_url=DOOR.origin, cookies=self.cookies
            ) as client:
                headers = self.headers | what.pop("headers", {})
                return await client.request(method, path, headers=headers, **what)

        return asyncio.run(asked())

    def get(self, path: str, **what: Any) -> httpx.Response:
        return self.ask("GET", path, **what)

    def join(self, token: str) -> httpx.Response:
        answer = self.get(f"/join?pass={token}")
        if DEVICE in answer.cookies:
            self.cookies[DEVICE] = answer.cookies[DEVICE]
        return answer


@pytest.fixture
def phone(store: Store, sharing: SharingNow) -> Phone:
    return Phone(Workshop(store), sharing)


def test_a_code_becomes_a_cookie_and_leaves_the_address(
    phone: Phone, sharing: SharingNow, store: Store
) -> None:
    token = sharing.invite("bench", "work", 1)
    answer = phone.join(token)
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    said = answer.headers["set-cookie"].lower()
    assert "httponly" in said
    assert "samesite=lax" in said
    assert token not in answer.headers["set-cookie"]
    assert phone.get("/").status_code == 200
    # Neither token is kept: only what they digest to.
    kept = store.setting("sharing passes") or ""
    assert token not in kept
    assert phone.cookies[DEVICE] not in kept
    # The pass of a device is no invitation, and an invitation opens no page.
    assert phone.get(f"/join?pass={phone.cookies[DEVICE]}").status_code == 403
    phone.cookies[DEVICE] = token
    assert phone.get("/").status_code == 401


@pytest.mark.parametrize(
    "path",
    ["/", "/new", "/rack", "/backup.db", "/everything.zip", "/assets/x/page.css", "/join/../rack"],
)
def test_without_a_pass_nothing_is_shown(phone: Phone, path: str) -> None:
    answer = phone.get(path)
    assert answer.status_code == 401
    assert "This device has no pass" in json.loads(answer.text)["said"]
    assert "content-security-policy" in answer.headers


def test_wrong_over_and_revoked_passes_are_refused(
    phone: Phone, sharing: SharingNow, clock: Clock
) -> None:
    assert phone.join("x" * 27).status_code == 403
    phone.join(sharing.invite("bench", "work", 1))
    phone.cookies[DEVICE] += "x"
    refused = phone.get("/")
    assert refused.status_code == 401
    assert "max-age=0" in refused.headers["set-cookie"].lower()
    phone.join(sharing.invite("bench", "work", 1))
    assert phone.get("/").status_code == 200
    clock.now += 86_401
    assert phone.get("/").status_code == 401
    late = sharing.invite("bench", "work", 1)
    clock.now += 86_401
    assert phone.join(late).status_code == 403
    phone.join(sharing.invite("bench", "work", 1))
    (device,) = [one for one in sharing.passes.all() if not one.invitation]
    sharing.passes.revoke(device.id)
    assert phone.get("/").status_code == 401
    phone.join(sharing.invite("bench", "work", 1))
    sharing.passes.revoke_all()
    assert phone.get("/").status_code == 401
    sharing.end()
    assert "not shared" in phone.get("/").text


def test_one_who_may_only_look_changes_nothing(phone: Phone, sharing: SharingNow) -> None:
    phone.join(sharing.invite("visitor", "look", 1))
    home = phone.get("/").text
    assert "may only look" in home
    for path in ("/demo", "/bring", "/cut/sawn", "/rack", "/no/such/page"):
        refused = phone.ask("POST", path, data={"x": "1"})
        assert refused.status_code == 403
        assert "may only look" in refused.text
    assert phone.ask("POST", "/look", data={"look": "dark", "here": "/"}).status_code == 303
    for path in ("/backup.db", "/everything.zip"):
        assert phone.get(path).status_code == 403


def test_a_pass_that_was_sent_in_the_open_opens_no_encrypted_door(
    store: Store, clock: Clock
) -> None:
    passes = Passes(store, clock)
    _, token = passes.invite("bench", "work", 1)
    plain, safe = passes.join(token, "phone"), passes.join(token, "phone", secure=True)
    assert plain is not None
    assert safe is not None
    assert passes.held(plain[1], secure=True) is None
    assert passes.held(safe[1], secure=True) is not None


@pytest.mark.parametrize(
    ("changed", "status"),
    [
        ({"host": "evil.example:8117"}, 421),
        ({"host": f"127.0.0.1:{PORT}"}, 421),
        ({"host": f"{SHOP}:80"}, 421),
        ({"origin": "http://evil.example"}, 403),
        ({"origin": "null"}, 403),
        ({"origin": f"http://127.0.0.1:{PORT}"}, 403),
        ({"sec-fetch-site": "cross-site", "sec-fetch-mode": "cors"}, 403),
        ({"content-length": "99999999"}, 413),
        ({"content-length": "9" * 5000}, 413),
        ({"content-length": "²"}, 413),
    ],
)
def test_other_names_origins_and_sizes_are_refused(
    phone: Phone, sharing: SharingNow, changed: dict[str, str], status: int
) -> None:
    phone.join(sharing.invite("bench", "work", 1))
    raw = {name: value.encode("utf-8") for name, value in changed.items()}
    assert phone.ask("POST", "/demo", headers=raw).status_code == status


def test_only_the_socket_says_who_sits_at_this_machine(phone: Phone, sharing: SharingNow) -> None:
    """A device that names the loopback address as host, or is sent on, is no less a stranger."""
    for headers in ({"host": f"localhost:{PORT}"}, {"x-forwarded-for": "127.0.0.1"}):
        assert phone.get("/sharing", headers=headers).status_code in (401, 421)
    phone.join(sharing.invite("bench", "work", 1))
    for path in ("/sharing", "/sharing/start", "/sharing/revoke-all"):
        assert phone.get(path).status_code == 403
        assert phone.ask("POST", path).status_code == 403
    phone.server = ("127.0.0.1", PORT)
    own = {"host": f"127.0.0.1:{PORT}", "origin": f"http://127.0.0.1:{PORT}"}
    phone.cookies = {}
    page = phone.get("/sharing", headers=own)
    assert page.status_code == 200
    assert sharing.shown is not None
    assert f"http://{DOOR.host}/join?pass={sharing.shown[1]}" in page.text
    (number,) = [one.id for one in sharing.passes.all() if not one.invitation]
    assert phone.ask("POST", "/sharing/revoke", headers=own, data={"id": number}).status_code == 303
    # The code that let it in holds no more either: it may still be on the phone.
    assert sharing.passes.all() == ()
    wrong = {"name": "visitor", "rights": "look", "days": "400"}
    page = phone.ask("POST", "/sharing/invite", headers=own, data=wrong)
    assert page.status_code == 422
    assert 'value="visitor"' in page.text
    assert 'value="400"' in page.text
    assert '<option value="work">' in page.text


def test_whoever_guesses_waits_longer_and_longer(
    phone: Phone, sharing: SharingNow, clock: Clock
) -> None:
    token = sharing.invite("bench", "work", 1)
    for _ in range(FREE_TRIES):
        assert phone.join("wrong").status_code == 403
    refused = phone.join("wrong")
    assert refused.status_code == 429
    assert refused.headers["retry-after"] == "2"
    clock.now += 2.1
    assert phone.join("wrong").status_code == 403
    assert phone.join("wrong").headers["retry-after"] == "4"
    stranger = phone.get("/", headers={"cookie": f"{DEVICE}=wrong"})
    assert stranger.status_code == 429
    # A device that is in stays in, whoever guesses beside it; so does a right code.
    # Another device is not slowed down by it.
    other = Phone(Workshop(phone.app.state.workshop.store), sharing, "192.168.7.32")
    assert other.join(token).status_code == 303
    # The one who waits is in as soon as it shows the right code, and is never thrown out.
    assert phone.join(token).status_code == 303
    for _ in range(TRIES_OF_ALL):
        sharing.limit.wrong("10.0.0.1")
    assert phone.get("/").status_code == 200


def test_many_who_guess_together_are_stopped_together(clock: Clock) -> None:
    limit = GuessLimit(clock)
    for number in range(TRIES_OF_ALL):
        assert limit.wait(f"10.0.0.{number}") == 0
        limit.wrong(f"10.0.0.{number}")
    assert limit.wait("10.0.1.1") == pytest.approx(600)
    clock.now += 601
    assert limit.wait("10.0.1.1") == 0


@pytest.mark.parametrize("how", ["shut out", "over"])
def test_a_stream_ends_when_its_device_is_shut_out_or_its_days_are_over(
    phone: Phone, sharing: SharingNow, clock: Clock, how: str
) -> None:
    phone.join(sharing.invite("bench", "work", 1))
    (device,) = [one for one in sharing.passes.all() if not one.invitation]
    sent: list[dict[str, Any]] = []

    async def stream(_scope: Any, _receive: Any, send: Any) -> None:
        await send({"type": "http.response.start", "status": 200, "headers": []})
        await send({"type": "http.response.body", "body": b"one", "more_body": True})
        if how == "over":
            clock.now += 86_401
        else:
            sharing.passes.revoke(device.id)
        await send({"type": "http.response.body", "body": b"two", "more_body": True})
        await send({"type": "http.response.body", "body": b"three", "more_body": True})

    async def asked() -> None:
        async def kept(message: Any) -> None:
            sent.append(message)

        headers = [("host", DOOR.host), ("cookie", f"{DEVICE}={phone.cookies[DEVICE]}")]
        scope = {
            "type": "http", "method": "GET", "path": "/", "server": (SHOP, PORT),
            "client": ("192.168.7.31", 5), "query_string": b"",
            "headers": [(name.encode(), value.encode()) for name, value in headers],
        }  # fmt: skip
        await Guard(stream, PORT, sharing)(scope, phone.app, kept)

    asyncio.run(asked())
    bodies = [one["body"] for one in sent if one["type"] == "http.response.body"]
    assert bodies == [b"one", b""]
    assert not sent[-1].get("more_body")


def test_passes_outlive_the_server_and_damage_lets_nobody_in(store: Store, clock: Clock) -> None:
    passes = Passes(store, clock)
    _, token = passes.invite("bench", "look", 2)
    made = passes.join(token, "phone")
    assert made is not None
    again = Passes(store, clock).held(made[1])
    assert again is not None
    assert again.rights == "look"
    kept = json.loads(store.setting("sharing passes") or "")
    kept[0]["rights"] = "anything"
    store.set_setting("sharing passes", json.dumps(kept))
    assert all(one.rights == "look" for one in Passes(store, clock).all())
    for damaged in ("", "{", '{"a": 1}', '[1, {"id": "x"}]', "null"):
        store.set_setting("sharing passes", damaged)
        assert Passes(store, clock).held(made[1]) is None


def test_invitations_that_cannot_be_are_refused(store: Store, clock: Clock) -> None:
    passes = Passes(store, clock)
    for days in (0, -1, 366, float("nan")):
        with pytest.raises(InputError, match="days are out of range"):
            passes.invite("bench", "work", days)
    for _ in range(MOST_PASSES):
        passes.invite("bench", "work", 1)
    with pytest.raises(InputError, match="devices and invitations already"):
        passes.invite("bench", "work", 1)
    assert passes.all()[0].name == "bench"
    clock.now += 86_401
    assert passes.invite("<b>" * 40, "work", 1)[0].name == "<b>" * 13 + "<"
    for wrong in ("0" + ".0" * 3, "127.0.0.1", "shop.local", "1.2.3", "::1", "192.168.1.20:80"):
        with pytest.raises(InputError, match="no address of this machine"):
            read_address(wrong)
    assert re.fullmatch(r"[\d.]+", read_address("192.168.1.20"))


def test_a_home_screen_finds_its_pictures(phone: Phone, sharing: SharingNow) -> None:
    phone.join(sharing.invite("bench", "look", 1))
    page = phone.get("/").text
    assert 'href="/shop.webmanifest" crossorigin="use-credentials"' in page
    said = phone.get("/shop.webmanifest")
    assert said.headers["content-type"] == "application/manifest+json"
    for icon in said.json()["icons"]:
        picture = phone.get(icon["src"])
        assert picture.content.startswith(b"\x89PNG")
        assert int.from_bytes(picture.content[16:20], "big") == int(icon["sizes"].split("x")[0])


def test_nothing_listens_where_no_certificate_can_be_made(store: Store, clock: Clock) -> None:
    free = listen("127.0.0.2", 0, "--port")
    port = free.getsockname()[1]
    free.close()
    (store.folder / "sharing").write_text("in the way", encoding="utf-8")
    server = SharedServer(
        Workshop(store), SharingNow(Passes(store, clock)), port=port, address="127.0.0.2",
        folder=store.folder,
    )  # fmt: skip
    with pytest.raises(InputError, match="the certificate cannot be kept"):
        server.open(secure=True)
    listen("127.0.0.2", port, "--port").close()
