"""Results kept one line each as they come, so that a killed run goes on where it was."""

from __future__ import annotations

import hashlib
import json
import os
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from filelock import FileLock, Timeout

from strapwright.errors import InputError
from strapwright.service.file_access import make_folder, write_files
from strapwright.service.many_jobs.case_values import Case, CaseResult

NAME = "results-so-far.jsonl"
RESULT_FILES = frozenset({NAME, "results.json", "results.parquet"})  # of a folder of jobs


def case_mark(case: Case, digest: str) -> str:
    """Mark of a job as it is: another value anywhere, or another program, gives another.

    Parameters
    ----------
    case
        The job.
    digest
        Of the program.

    Returns
    -------
    str
        32 hexadecimal digits.
    """
    beside = sorted(case.beside.items())
    said = [digest, case.name, case.text, beside, case.papers, case.unread]
    return hashlib.sha256(json.dumps(said).encode()).hexdigest()[:32]


class KeptResults:
    """The results of a run in its folder; a ``with`` block closes the file.

    Parameters
    ----------
    folder
        Of the results; made where it is missing.
    digest
        Of the program.
    afresh
        Whether to forget what is there.

    Raises
    ------
    InputError
        If the folder cannot be written, or another run is at work in it.
    """

    def __init__(self, folder: Path, digest: str, *, afresh: bool = False) -> None:
        self._digest = digest
        self._path = folder / NAME
        self._lock = FileLock(folder / ".results.lock", timeout=0)
        try:
            make_folder(folder)
            self._lock.acquire()
            self._lines = {} if afresh else self._read()
            # Written anew, so that half a line of a killed run is gone before the next is added.
            whole = "".join(f"{json.dumps(one)}\n" for one in self._lines.values())
            write_files(folder, {NAME: whole.encode()})
            # Unbuffered: what a full disk refuses is not tried once more when the file is closed.
            self._file = self._path.open("ab", buffering=0)
        except Timeout:
            raise InputError(
                str(folder),
                "another run is writing its results there",
                "wait for it, or name another folder",
            ) from None
        except OSError as error:
            raise _unwritable(folder, error) from error

    def __enter__(self) -> Self:
        """Return itself."""
        return self

    def __exit__(
        self, _: type[BaseException] | None, __: BaseException | None, ___: TracebackType | None
    ) -> None:
        """Close the file."""
        self._file.close()
        self._lock.release()

    def _read(self) -> dict[str, dict[str, Any]]:
        if not self._path.exists():
            return {}
        found = {}
        for line in self._path.read_bytes().split(b"\n"):
            try:
                one = json.loads(line)
                found[one["mark"]] = {"mark": one["mark"], "result": one["result"]}
            except (ValueError, KeyError, TypeError):
                continue  # half a line, where a run was killed: its job is planned again
        return found

    def of(self, case: Case) -> dict[str, Any] | None:
        """Return what is kept of a job, or ``None`` where it is still to be planned."""
        found = self._lines.get(case_mark(case, self._digest))
        return None if found is None else found["result"]

    def keep(self, case: Case, result: CaseResult) -> dict[str, Any]:
        """Keep a result on the disk before anything else happens, and return it as data.

        Raises
        ------
        InputError
            If the disk is full.
        """
        data = {
            "name": result.name,
            "outcome": result.outcome,
            "said": result.said,
            "units": result.units,
            "varied": dict(result.varied),
            "figures": result.figures,
        }
        line = json.dumps({"mark": case_mark(case, self._digest), "result": data}, allow_nan=False)
        try:
            left = f"{line}\n".encode()
            while left:  # a disk that is nearly full takes a part first
                left = left[self._file.write(left) :]
            os.fsync(self._file.fileno())
        except OSError as error:
            raise _unwritable(self._path.parent, error) from error
        return data


def _unwritable(folder: Path, error: OSError) -> InputError:
    return InputError(
        str(folder),
        f"the results cannot be kept there ({(error.strerror or str(error)).lower()})",
        "name a folder that you may write to, on a disk with room; what was kept stays",
    )
