"""Let coverage guide made-up inputs: what reaches a new branch of the program is varied further.

    pip install -r validation/fuzz/requirements.txt     # into an environment of its own
    python validation/fuzz/guided.py FOLDER --kind jobs [--minutes 10]

FOLDER keeps per kind the inputs that reached something new (``jobs/corpus``), from which the same
call goes on, and each that found something (``jobs/found``).  The judges are those of ``run.py``.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import struct
import sys
import time
from collections.abc import Callable
from pathlib import Path

import atheris

sys.path.append(str(Path(__file__).parent))

from strapwright.service.compiler_cache import prepare_cache

prepare_cache()

# What is compiled must stay as it is written; what reads and refuses is what is looked into.
LOOKED_INTO = [
    "strapwright.quantities", "strapwright.shop_files", "strapwright.store", "strapwright.pages",
    "strapwright.web", "strapwright.errors", "strapwright.shop", "tomlkit", "judging",
]  # fmt: skip

with atheris.instrument_imports(include=LOOKED_INTO):
    import inputs
    import judging

SEEDS = 300  # inputs of the kind that a new corpus begins with
LONGEST = {"quantities": 200, "jobs": 20_000, "forms": 2000, "json": 4000,
           "uploads": 20_000, "backups": 400}  # fmt: skip
_STEP = struct.Struct("<IB")  # one damage of a backup: where, and what is turned there
_PAGES = ("part", "bar", "press", "tooling", "strength", "bends", "log", "log/lines", "restore",
          "undo", "propose")  # fmt: skip
_WORDS = ("/rack", "/crib", "/rates", "/lots", "/settings/mine", "/look", "/cut/sawn", "/cut/undo",
          "/new", "/bring")  # fmt: skip


def main() -> int:
    """Run for a while and say how many inputs were tried and what was found."""
    words = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    words.add_argument("folder", type=Path)
    words.add_argument("--kind", choices=tuple(LONGEST), required=True)
    words.add_argument("--minutes", type=float, default=10.0)
    asked = words.parse_args()
    place = asked.folder / asked.kind
    corpus, found = place / "corpus", place / "found"
    for folder in (corpus, found):
        folder.mkdir(parents=True, exist_ok=True)
    bench = judging.Bench()
    if not any(corpus.iterdir()):
        for number in range(SEEDS):
            raw = seed(asked.kind, number, bench)
            (corpus / hashlib.sha256(raw).hexdigest()[:16]).write_bytes(raw)
    count = Counted(place / "tried.json")
    take = taking(bench, asked.kind)

    def one(raw: bytes) -> None:
        wrong = judging.caught(lambda: take(raw))
        if wrong:
            count.found += 1
            name = hashlib.sha256(wrong[:60].encode()).hexdigest()[:12]
            if not (found / f"{name}.txt").exists():  # one of a kind is enough
                (found / f"{name}.input").write_bytes(raw)
                (found / f"{name}.txt").write_text(wrong, encoding="utf-8")
                print(f"{asked.kind}: {wrong}", flush=True)
        count.up()

    atheris.Setup(
        [sys.argv[0], str(corpus), f"-max_total_time={int(60 * asked.minutes)}", "-timeout=60",
         f"-max_len={LONGEST[asked.kind]}", "-rss_limit_mb=4000", "-print_final_stats=1",
         f"-artifact_prefix={found}/"],
        one,
    )  # fmt: skip
    atheris.Fuzz()  # ends the process
    return 0


class Counted:
    """How many were tried, kept as it grows: the fuzzer ends the process without a word."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self.before = json.loads(file.read_text())["tried"] if file.exists() else 0
        self.tried = self.found = 0
        self.kept = time.monotonic()

    def up(self) -> None:
        """One more."""
        self.tried += 1
        if time.monotonic() - self.kept > 2.0:
            self.kept = time.monotonic()
            said = {"tried": self.before + self.tried, "found in this run": self.found}
            self.file.write_text(json.dumps(said) + "\n")


def seed(kind: str, number: int, bench: judging.Bench) -> bytes:
    """Return an input to begin with."""
    rng = inputs.rng_of(kind, 11, number)
    if kind == "quantities":
        return inputs.quantity(rng).encode("utf-8", "surrogatepass")
    if kind == "jobs":
        return inputs.job(rng).encode("utf-8", "surrogatepass")
    if kind == "json":
        return inputs.json_bytes(rng)
    if kind == "uploads":
        return inputs.archive(rng)
    if kind == "forms":
        typed = "\n".join(f"{name}={text}" for name, text in inputs.form(rng).items())
        return bytes([rng.randrange(256)]) + typed.encode("utf-8", "surrogatepass")
    return b"".join(
        _STEP.pack(rng.randrange(len(bench.whole)), 1 << rng.randrange(8))
        for _ in range(rng.randrange(1, 9))
    )


def taking(bench: judging.Bench, kind: str) -> Callable[[bytes], str]:
    """Return what the program does with an input of a kind."""

    def text(raw: bytes) -> str:
        return raw.decode("utf-8", "surrogatepass" if raw[:1] < b"\x80" else "replace")

    def form(raw: bytes) -> str:
        where, rest = raw[:1] or b"\0", raw[1:].decode("utf-8", "replace")
        pages = [f"/jobs/{bench.job}/{page}" for page in _PAGES] + list(_WORDS)
        pages += [f"/live/{bench.job}/{page}/drawing" for page in _PAGES[:5]]
        path = pages[where[0] % len(pages)]
        typed = dict(line.partition("=")[::2] for line in rest.split("\n"))
        if path.endswith("/propose") and typed.get("do", "begin") == "begin":
            typed["do"] = "stop"  # a search is a process of its own, and long
        return bench.sent_wrong(path, typed)

    def backup(raw: bytes) -> str:
        changed = bytearray(bench.whole)
        for at in range(0, len(raw) - _STEP.size + 1, _STEP.size):
            place, turned = _STEP.unpack_from(raw, at)
            changed[place % len(changed)] ^= turned
        return bench.damage_wrong(bytes(changed))

    def lenient(judge: Callable[[str], str]) -> Callable[[bytes], str]:
        def take(raw: bytes) -> str:
            try:
                said = text(raw)
            except UnicodeDecodeError:
                said = raw.decode("latin-1")
            return judge(said)

        return take

    def job(said: str) -> str:
        return judging.limits_wrong(said) or judging.job_wrong(said)

    return {
        "quantities": lenient(judging.quantity_wrong), "jobs": lenient(job),
        "json": judging.json_wrong, "uploads": bench.upload_wrong, "forms": form,
        "backups": backup,
    }[kind]  # fmt: skip


if __name__ == "__main__":
    sys.exit(main())
