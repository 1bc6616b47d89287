"""Long work beside the pages: each search in a process of its own, its end kept in the store."""

from __future__ import annotations

import contextlib
import json
import subprocess
import sys
import threading
from datetime import UTC, datetime
from typing import IO, Any

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.search_request import Asked, asked_to_data, digest_of
from strapwright.store import Search, Store, StoreError

MOST_AT_ONCE = 2  # searches; more only take the machine from each other
STOPPED = "You stopped it; what it had found so far is not kept."
GONE = "The server stopped during the search; start it again."
_BROKE = "The search ended without an answer; start it again."
_PHASES = {
    "bending": "Trying every shaft as a nose",
    "listing": "Matching plates to noses and shoulders",
    "checking": "Checking strength and bend plans",
}
_BEHIND = 0.5  # share of the way that bending takes


@frozen(kw_only=True)
class Progress:
    """How far a search is: words, and a share between 0 and 1."""

    text: str = "Getting ready"
    share: float = 0.0


class Searcher:
    """Runs searches and keeps how they end; safe to use from several threads.

    Parameters
    ----------
    store
        Opened; what it still says to be running is marked as stopped.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        self._running: dict[str, subprocess.Popen[str]] = {}
        self._progress: dict[str, Progress] = {}
        self._found: dict[str, int] = {}
        self._tried: dict[str, int] = {}
        self._lock = threading.Lock()
        store.searches.end_all(GONE)

    def begin(self, item: str, asked: Asked) -> Search:
        """Begin a search, or return the one that runs for this job.

        Parameters
        ----------
        item
            Id of the job.
        asked
            Parts, this job's first, rack and crib.

        Raises
        ------
        InputError
            If too many run already.
        """
        with self._lock:
            # One that has ended is still there for a moment, until its process is gone.
            there = [self._store.searches.get(search) for search in self._running]
            running = [one for one in there if one.state == "running"]
            for one in running:
                if one.item == item:
                    return one
            if len(running) >= MOST_AT_ONCE:
                raise InputError(
                    "search",
                    f"{MOST_AT_ONCE} searches are already running",
                    "wait for one to finish, or stop one on its page",
                )
            search_kept = self._store.searches.begin(item, digest_of(asked), datetime.now(UTC))
            try:
                process = _started()
            except OSError as error:
                self._store.searches.end(search_kept.id, "failed", _BROKE)
                raise InputError(
                    "search", f"no search can be started ({error.strerror})", "close other programs"
                ) from error
            self._running[search_kept.id] = process
            self._progress[search_kept.id] = Progress()
        threading.Thread(
            target=self._listen, args=(search_kept.id, process, asked_to_data(asked)), daemon=True
        ).start()
        return search_kept

    def progress(self, search: str) -> Progress:
        """Return how far a search is."""
        return self._progress.get(search, Progress())

    def stop(self, search: str) -> None:
        """Stop a search; one that has ended stays as it ended."""
        self._store.searches.end(search, "stopped", STOPPED)
        with self._lock:
            running = self._running.get(search)
        if running is not None:
            running.kill()

    def _listen(self, search: str, process: subprocess.Popen[str], asked: Any) -> None:
        with contextlib.suppress(StoreError):  # closed meanwhile: then nobody waits any more
            try:
                self._hear(search, process, asked)
            finally:
                process.kill()
                process.wait()
                for pipe in (process.stdin, process.stdout):
                    _close(pipe)
                with self._lock:
                    self._running.pop(search, None)
                    self._found.pop(search, None)
                    self._tried.pop(search, None)
                    self._progress.pop(search, None)
                self._store.searches.end(search, "failed", _BROKE)

    def _hear(self, search: str, process: subprocess.Popen[str], asked: Any) -> None:
        if process.stdin is None or process.stdout is None:
            return
        with contextlib.suppress(OSError, ValueError):
            process.stdin.write(json.dumps(asked) + "\n")
            process.stdin.flush()
        for line in process.stdout:
            said = json.loads(line)
            if "progress" in said:
                self._note(search, *said["progress"])
            elif "refused" in said:
                self._store.searches.end(search, "failed", said["refused"])
            else:
                self._store.searches.end(search, "done", result=json.dumps(said["found"]))

    def _note(self, search: str, word: str, done: int, whole: int) -> None:
        if word in ("found", "tried"):
            (self._found if word == "found" else self._tried)[search] = done
            return
        share = done / max(whole, 1)
        begun = 0.0 if word == "bending" else _BEHIND
        text = f"{_PHASES.get(word, word.capitalize())}: {done} of {whole}"
        tried = self._tried.get(search, 0)
        if tried:
            text += f"; {tried} candidates tried"
        found = self._found.get(search, 0)
        if found:
            text += f"; {found} found so far"
        self._progress[search] = Progress(text=text, share=begun + (1 - _BEHIND) * share)


def _started() -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "strapwright.pages.long_work.search_worker"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        encoding="utf-8",
    )


def _close(pipe: IO[str] | None) -> None:
    if pipe is not None:
        with contextlib.suppress(OSError):
            pipe.close()
