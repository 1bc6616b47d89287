"""A job file and the store that keeps its log: found there, or brought in for its first line."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from attrs import frozen

from strapwright.service.file_access import read_text_file
from strapwright.service.shop_log.logged_push import JobText
from strapwright.service.user_folders import default_store
from strapwright.shop_files.reading_job import files_named
from strapwright.store import Store, import_files, open_store

# A job that is not in the store yet shares nothing but its press, its tooling and a named lot.
_NOT_KEPT = "0" * 32


@frozen(kw_only=True)
class Shop:
    """An opened store and a job of it."""

    store: Store
    job: JobText


@contextmanager
def shop_of(path: Path, folder: Path | None) -> Iterator[Shop]:
    """Open the store with a job that is logged; what is not there yet is brought in.

    Parameters
    ----------
    path
        Of the job file; shop files it names lie beside it.
    folder
        Of the store; the user's own where not given.

    Raises
    ------
    InputError
        If a file cannot be read, or the store has another text under the name of a shop file.
    StoreError
        If the store cannot be opened.
    """
    text = read_text_file(path, "job file")
    beside = {
        name: read_text_file(path.parent / name, "shop file").encode()
        for name in files_named(text)
        if (path.parent / name).exists()
    }
    with open_store(folder or default_store()) as store:
        now = datetime.now(UTC)
        import_files(store, beside, now)
        (kept,) = import_files(store, {path.name: text.encode()}, now, clash="version")
        item = kept.item
        yield Shop(store=store, job=JobText(item=item.id, version=item.current, text=text))


@contextmanager
def shop_as_it_is(path: Path, folder: Path | None) -> Iterator[Shop]:
    """Open the store beside a job file; nothing in it is changed.

    Parameters
    ----------
    path, folder
        As for :func:`shop_of`.

    Raises
    ------
    InputError
        If the file cannot be read.
    StoreError
        If the store cannot be opened.
    """
    text = read_text_file(path, "job file")
    with open_store(folder or default_store()) as store:
        found = next((one for one in store.list("job") if one.file == path.name), None)
        item, version = (_NOT_KEPT, 0) if found is None else (found.id, found.current)
        yield Shop(store=store, job=JobText(item=item, version=version, text=text))
