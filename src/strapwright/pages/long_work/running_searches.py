"""Long work beside the pages: each search in a process of its own, its end kept in the store."""

from __future__ import annotations

import contextlib
import json
import subprocess
import sys
import threading
from datetime import UTC, datetime
from typing import IO, Any

from strapwright.errors import InputError
from strapwright.pages.long_work.search_request import Asked, asked_to_data, digest_of
from strapwright.proposing.candidate_sizes import stock_of
from strapwright.shop_files.reading_rack import read_rack
from strapwright.store import Search, Store, StoreError
from strapwright.wording.search_progress import SearchProgress

MOST_AT_ONCE = 2  # searches; more only take the machine from each other
STOPPED = "You stopped it; what it had found so far is not kept."
GONE = "The server stopped during the search; start it again."
_BROKE = "The search ended without an answer; start it again."


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
        self._progress: dict[str, SearchProgress] = {}
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
            self._progress[search_kept.id] = _ready(asked)
        threading.Thread(
            target=self._listen, args=(search_kept.id, process, asked_to_data(asked)), daemon=True
        ).start()
        return search_kept

    def progress(self, search: str) -> SearchProgress:
        """Return how far a search is."""
        return self._progress.get(search, SearchProgress())

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
                self._progress.setdefault(search, SearchProgress()).hear(*said["progress"])
            elif "refused" in said:
                self._store.searches.end(search, "failed", said["refused"])
            else:
                self._store.searches.end(search, "done", result=json.dumps(said["found"]))


def _ready(asked: Asked) -> SearchProgress:
    """Begin with what is on the rack, before the search itself says anything."""
    progress = SearchProgress()
    with contextlib.suppress(InputError):  # the search refuses it, with a sentence
        progress.hear("bending", 0, len(stock_of(read_rack(asked.rack, "rack"), ("shaft",))))
    return progress


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
