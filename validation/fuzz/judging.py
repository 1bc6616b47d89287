"""What must not come of any input: a traceback, a hang, no number, a band without its figure.

Each judge takes an input and says what is wrong with how the program took it; empty where nothing.
"""

from __future__ import annotations

import asyncio
import json
import math
import random
import signal
import sqlite3
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from types import FrameType
from typing import Any
from urllib.parse import quote, unquote, urlencode

import inputs

from strapwright.errors import InputError, SolverError
from strapwright.pages.sharing.device_passes import _read as read_passes
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan import plan
from strapwright.quantities.reading import (
    read_angle,
    read_flow,
    read_force,
    read_length,
    read_pressure,
    read_ratio,
    read_volume,
)
from strapwright.report.plan_json import plan_to_data
from strapwright.shop_files.opening import parse
from strapwright.shop_files.reading_job import files_named, read_job
from strapwright.shop_files.text_limits import refuse_beyond_limits
from strapwright.store import Store, StoreError, backup_store, import_files, open_store, verify_file
from strapwright.store.archives import unpack
from strapwright.store.export_index import read_index
from strapwright.store.text_check import judge as judge_text
from strapwright.store.text_check import kind_of
from strapwright.web import create_app

MOST_SECONDS = 5.0  # of the processor
AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
_READERS = (
    *(read_length, read_angle, read_pressure, read_force, read_flow, read_volume),
    lambda text, where, units: read_ratio(text, f"{where}{units or ''}"),
)
_PORT = 8117


class Hung(BaseException):
    """It took longer than anybody waits."""


@contextmanager
def within_time() -> Iterator[None]:
    """Let work run for so many seconds of the processor."""

    def over(number: int, frame: FrameType | None) -> None:
        del number, frame
        raise Hung

    before = signal.signal(signal.SIGVTALRM, over)
    signal.setitimer(signal.ITIMER_VIRTUAL, MOST_SECONDS)
    began = time.process_time()
    try:
        yield
        if time.process_time() - began > MOST_SECONDS:
            raise Hung
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


def words_wrong(error: InputError | StoreError) -> str:
    """What a sentence lacks: what is wrong, what to do, and an end."""
    said = str(error)
    if not error.remedy.strip() or not error.problem.strip():
        return f"no remedy: {said}"
    if not said.endswith((".", "?")) or "\n" in said or len(said) > 1500 or "Traceback" in said:
        return f"no sentence: {said[:200]!r}"
    return ""


def quantity_wrong(text: str) -> str:
    """Read a text as every quantity there is."""
    for read in _READERS:
        for units in ("inch", "metric", None):
            try:
                value = read(text, "field", units)
            except InputError as error:
                wrong = words_wrong(error)
                if wrong:
                    return wrong
            else:
                if not math.isfinite(float(value)):
                    return f"it reads as {value}"
    return ""


def limits_wrong(text: str) -> str:
    """Measure and parse a text."""
    try:
        refuse_beyond_limits(text, "file")
        parse(text, "file")
    except InputError as error:
        return words_wrong(error)
    return ""


def job_wrong(text: str) -> str:
    """Read a text as a job and as whatever the store would take it for."""
    for read in (read_job, files_named):
        try:
            read(text)
        except InputError as error:
            wrong = words_wrong(error)
            if wrong:
                return wrong
    kind = kind_of(text)
    trouble = judge_text(kind, text, {}).trouble
    if trouble is not None and not trouble.endswith((".", "?")):
        return f"no sentence: {trouble[:200]!r}"
    return ""


def plan_wrong(text: str) -> str:
    """Plan a job and look at every figure that comes out."""
    try:
        made = plan(read_job(text), search=False)
    except InputError as error:
        return words_wrong(error)
    except SolverError:
        return ""  # a sentence of its own; the solver says so rather than to guess
    data = plan_to_data(made)
    try:
        json.dumps(data, allow_nan=False)
    except ValueError:
        return f"no number: {next(_no_numbers(data, ''), '?')}"
    return next(_out_of_band(data), "")


def _no_numbers(data: object, path: str) -> Iterator[str]:
    if isinstance(data, Mapping):
        for key, one in data.items():
            yield from _no_numbers(one, f"{path}.{key}")
    elif isinstance(data, list | tuple):
        for at, one in enumerate(data):
            yield from _no_numbers(one, f"{path}[{at}]")
    elif isinstance(data, float) and not math.isfinite(data):
        yield path


def _out_of_band(data: dict[str, Any]) -> Iterator[str]:
    blank = data.get("blank") or {}
    pairs: list[tuple[str, Any, Any]] = [
        ("length_mm", blank.get("length_mm"), blank.get("length_band_mm")),
        *(
            ("leg", leg, band)
            for leg, band in zip(
                data.get("legs_mm") or (), data.get("legs_band_mm") or (), strict=False
            )
        ),
    ]
    for step in data.get("steps") or ():
        pairs += [(key, step.get(key), band) for key, band in (step.get("bands") or {}).items()]
    for key, value, band in pairs:
        if not isinstance(band, Mapping) or band.get("low") is None or band.get("high") is None:
            continue
        low, high = band["low"], band["high"]
        slack = 1e-9 * max(abs(low), abs(high), 1.0)
        if low > high + slack:
            yield f"{key}: band from {low} to {high}"
        if isinstance(value, int | float) and not low - slack <= value <= high + slack:
            yield f"{key}: {value} is not within {low} to {high}"


def json_wrong(raw: bytes) -> str:
    """Read bytes as the index of an export and as kept passes."""
    with suppress(UnicodeDecodeError):
        read_passes(raw.decode())
    try:
        read_index(raw)
    except InputError as error:
        return words_wrong(error)
    return ""


class Bench:
    """A store, a backup of it and an application, made once for the judges that need them."""

    def __init__(self) -> None:
        self.place = tempfile.TemporaryDirectory()
        folder = Path(self.place.name)
        self.store = open_store(folder / "store")
        self.shop = Workshop(self.store)
        self.job = fill(self.store)
        backup_store(self.store.folder, folder / "whole.db")
        self.whole = (folder / "whole.db").read_bytes()
        self.rows = rows_of(folder / "whole.db")
        self.file = folder / "damaged.db"
        self.app = create_app(self.shop, _PORT)
        self.loop = asyncio.new_event_loop()

    def close(self) -> None:
        """Let go of it."""
        self.loop.close()
        self.store.close()
        self.place.cleanup()

    def answer(
        self,
        method: str,
        path: str,
        body: bytes = b"",
        query: bytes = b"",
        *,
        patience: float | None = None,
    ) -> tuple[int, dict[str, str], bytes]:
        """Ask for a page; ``TimeoutError`` where it has no end within so many seconds."""
        return self.loop.run_until_complete(
            asyncio.wait_for(asked(self.app, method, path, body, query), patience)
        )

    def backup_wrong(self, rng: random.Random) -> tuple[bytes, str]:
        """Damage the backup: it is refused in a sentence, or every row is as it was."""
        raw = inputs.damaged(self.whole, rng)
        return raw, self.damage_wrong(raw)

    def damage_wrong(self, raw: bytes) -> str:
        """Take a damaged backup."""
        self.file.write_bytes(raw)
        try:
            verify_file(self.file, sealed=True)
        except StoreError as error:
            return words_wrong(error)
        # The first pages have fields that say nothing of the rows, such as a counter of changes.
        return "" if rows_of(self.file) == self.rows else "a changed row was taken for whole"

    def upload_wrong(self, raw: bytes) -> str:
        """Unpack and take in an archive."""
        try:
            files = unpack(raw)
            import_files(self.store, files, AT, clash="version")
        except (InputError, StoreError) as error:
            return words_wrong(error)
        return ""

    def form_wrong(self, rng: random.Random, typed: Mapping[str, str]) -> str:
        """Send a form to a page."""
        page = rng.choice(
            ("part", "bar", "press", "tooling", "bends", "log", "restore", "undo", "propose")
        )
        path = rng.choice((f"/jobs/{self.job}/{page}", f"/live/{self.job}/{page}/drawing", "/new"))
        return self.sent_wrong(path, typed)

    def sent_wrong(self, path: str, typed: Mapping[str, str]) -> str:
        """Send a form to an address."""
        body = urlencode(typed, errors="replace").encode()
        status, _, _ = self.answer("POST", path, body)
        if path in ("/new", "/demo") or path.endswith("/copy"):
            for item in self.shop.recent():
                if item.id != self.job:
                    self.store.archive(item.id)
        return f"{path} is answered with {status}" if status >= 500 else ""


def address_of(path: str, places: Mapping[str, object]) -> str | None:
    """Put values into an address; ``None`` where one is empty or would make it another one."""
    address = path.format(**{name: quote(str(one), safe="") for name, one in places.items()})
    if "//" in address or "/." in address or (address.endswith("/") and address != "/"):
        return None
    return address


async def asked(
    app: Callable[..., Any],
    method: str,
    path: str,
    body: bytes = b"",
    query: bytes = b"",
    more: tuple[tuple[bytes, bytes], ...] = (),
) -> tuple[int, dict[str, str], bytes]:
    """Ask an application without a network; give status, headers and body."""
    sent: list[dict[str, Any]] = []
    coming = [{"type": "http.request", "body": body, "more_body": False}]

    async def receive() -> dict[str, Any]:
        if coming:
            return coming.pop()
        await asyncio.sleep(3600)
        return {"type": "http.disconnect"}

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    host = f"127.0.0.1:{_PORT}".encode()
    headers = [
        (b"host", host), (b"origin", b"http://" + host),
        (b"content-type", b"application/x-www-form-urlencoded"),
        (b"content-length", str(len(body)).encode()),
    ]  # fmt: skip
    headers = [one for one in headers if one[0] not in dict(more)] + list(more)
    scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method,
        "path": unquote(path), "raw_path": path.encode(), "query_string": query, "headers": headers,
        "client": ("127.0.0.1", 5), "server": ("127.0.0.1", _PORT), "scheme": "http",
        "root_path": "",
    }  # fmt: skip
    await app(scope, receive, send)
    told = {name.decode("latin-1").lower(): text.decode("latin-1")
            for name, text in sent[0].get("headers", ())}  # fmt: skip
    return sent[0]["status"], told, b"".join(one.get("body", b"") for one in sent[1:])


def fill(store: Store) -> str:
    """Keep a little of everything, and return the id of a job."""
    text = inputs.quick_examples()[0]
    job = store.create("job", "Rail stay", text, AT).id
    store.save(job, text + "# again\n", 1, AT, "a note")
    store.create("job", "Änderung", "not readable", AT)
    store.drafts.put(job, "kitchen", "job", 2, {"part.name": "half typed"}, AT)
    search = store.searches.begin(job, "0", AT)
    store.searches.end(search.id, "stopped", "You stopped it.")
    store.set_setting("greeted", "yes")
    return job


def rows_of(file: Path) -> dict[str, list[Any]]:
    """Every row of every table."""
    with closing(sqlite3.connect(file)) as opened:
        names = [
            name
            for (name,) in opened.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
        ]
        return {
            name: sorted(opened.execute(f'SELECT * FROM "{name}"'), key=repr)  # noqa: S608
            for name in names
        }


_OF_TEXT: dict[str, tuple[Callable[[random.Random], Any], Callable[[Any], str]]] = {
    "quantities": (inputs.quantity, quantity_wrong),
    "limits": (inputs.bomb, limits_wrong),
    "jobs": (inputs.job, job_wrong),
    "plans": (inputs.plannable, plan_wrong),
    "json": (inputs.json_bytes, json_wrong),
}


def judged(bench: Bench, kind: str, seed: int, number: int) -> tuple[bytes | str, str]:
    """Make an input, let the program take it, and say what went wrong."""
    rng = inputs.rng_of(kind, seed, number)
    made: bytes | str = ""

    def take() -> str:
        nonlocal made
        if kind in _OF_TEXT:
            make, wrong = _OF_TEXT[kind]
            made = make(rng)
            return wrong(made)
        if kind == "backups":
            made, said = bench.backup_wrong(rng)
            return said
        if kind == "uploads":
            made = inputs.archive(rng)
            return bench.upload_wrong(made)
        typed = inputs.form(rng)
        made = json.dumps(typed)
        return bench.form_wrong(rng, typed)

    said = caught(take)
    return made, said


def caught(take: Callable[[], str]) -> str:
    """Let the program take an input, and say what went wrong, a breakdown and a hang too."""
    try:
        with within_time():
            return take()
    except Hung:
        return f"it took more than {MOST_SECONDS:g} s"
    except Exception as error:  # noqa: BLE001  whatever it is, it is what is looked for
        return f"{type(error).__name__}: {error}"[:500]
