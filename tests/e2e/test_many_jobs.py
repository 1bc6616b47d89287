"""Folders of jobs and studies as whole commands: kills, another machine, and what is written."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import psutil
import pytest
from pyarrow import parquet

from strapwright.cli.main import main
from strapwright.cli.many_jobs.sharing_work import shown_progress
from strapwright.errors import InputError
from strapwright.service.many_jobs import many_papers
from strapwright.service.many_jobs.job_folder import jobs_in
from strapwright.service.many_jobs.kept_results import KeptResults
from strapwright.service.many_jobs.run_many import HowToRun, run_many

EXAMPLES = Path(__file__).resolve().parents[2] / "docs" / "examples"
STUDY = """format = 1
units = "inch"
job = "shelf-bracket.toml"

[[vary]]
key = "tooling.shoulders.opening"
values = ["2", "2-1/2", "3"]

[[vary]]
key = "part.material"
values = ["A36 hot rolled", "1018 cold drawn"]
"""
KEPT = "results-so-far.jsonl"
Results = dict[str, Any]


def begin(*words: str | Path, keys: bool = True) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "strapwright", *map(str, words)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=not keys,
    )  # fmt: skip


def until(true: Callable[[], bool], running: subprocess.Popen[Any] | None = None) -> None:
    while not true():
        assert running is None or running.poll() is None
        time.sleep(0.05)


def lines(folder: Path) -> int:
    kept = folder / KEPT
    return len(kept.read_bytes().splitlines()) if kept.exists() else 0


def results(folder: Path) -> Results:
    found: Results = json.loads((folder / "results.json").read_text(encoding="utf-8"))
    return found


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shop")
    shutil.copy(EXAMPLES / "shelf-bracket.toml", folder)
    (folder / "opening.study.toml").write_text(STUDY, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def planned(shop: Path) -> Path:
    """Return the results of the study, planned through a killed worker and a killed command."""
    out = shop / "killed"
    command = ("study", shop / "opening.study.toml", "--out", out, "--processes", "2")
    first = begin(*command, keys=False)
    until(lambda: lines(out) >= 1, first)
    workers = [
        one for one in psutil.Process(first.pid).children() if "spawn_main" in str(one.cmdline())
    ]
    workers[0].kill()
    until(lambda: lines(out) >= 3, first)
    first.kill()
    first.communicate()
    # None of its processes stays behind, those begun after the kill included.
    until(lambda: not [one for one in psutil.process_iter() if _of_session(one, first.pid)])
    before = (out / KEPT).read_bytes().splitlines()
    with (out / KEPT).open("ab") as kept:
        kept.write(b'{"mark": "half a li')  # as a kill in the middle of a line leaves it
    again = begin(*command)
    told, noted = again.communicate()
    assert again.returncode == 3, noted  # the narrowest opening is refused
    assert "6 jobs: 4 planned, 2 refused." in told
    after = (out / KEPT).read_bytes().splitlines()
    assert after[: len(before)] == before
    assert len(after) == 6
    return out


def _of_session(one: psutil.Process, session: int) -> bool:
    try:
        return os.getsid(one.pid) == session and one.status() != psutil.STATUS_ZOMBIE
    except (ProcessLookupError, psutil.NoSuchProcess):
        return False


@pytest.mark.long
def test_a_study_goes_on_after_kills_and_keeps_what_was_done(planned: Path) -> None:
    cases = results(planned)["cases"]
    assert [one["varied"]["tooling.shoulders.opening"] for one in cases] == [
        opening for opening in ("2", "2-1/2", "3") for _ in range(2)
    ]
    assert [one["outcome"] for one in cases] == ["refused"] * 2 + ["planned"] * 4
    # A refused bend of this kind keeps its figures; a wider opening asks less of the gauge.
    gauges = [one["figures"]["most_gauge_MPa"] for one in cases]
    assert gauges[0] > gauges[2] > gauges[4] > 0
    assert gauges[1] > gauges[3] > gauges[5] > 0


@pytest.mark.long
def test_the_table_holds_what_the_json_holds(planned: Path) -> None:
    rows = parquet.read_table(planned / "results.parquet").to_pylist()
    for row, case in zip(rows, results(planned)["cases"], strict=True):
        assert row["case"] == case["name"]
        assert row["vary part.material"] == case["varied"]["part.material"]
        assert row["blank_mm"] == case["figures"]["blank_mm"]
        assert row["bend_travel_mm"] == [one["travel_mm"] for one in case["figures"]["steps"]]


@pytest.mark.long
def test_a_study_draws_its_charts(planned: Path) -> None:
    for chart in ("gauge", "angle", "blank"):
        for theme in ("dark", "light"):
            drawn = (planned / f"{chart}.{theme}.svg").read_text(encoding="utf-8")
            assert "1018 cold drawn" in drawn
            assert "tooling.shoulders.opening" in drawn


@pytest.mark.long
def test_ctrl_c_ends_with_one_line_and_keeps_what_was_done(shop: Path) -> None:
    out = shop / "stopped"
    study = begin(
        "study", shop / "opening.study.toml", "--out", out, "--processes", "1", keys=False
    )
    until(lambda: lines(out) >= 1, study)
    # A second run in the same folder would take the first one's results away.
    with pytest.raises(InputError, match="another run is writing"):
        KeptResults(out, "digest")
    os.killpg(study.pid, signal.SIGINT)
    told, noted = study.communicate()
    assert (study.returncode, told, noted.strip()) == (130, "", "stopped")
    assert lines(out) >= 1
    assert not (out / "results.json").exists()


@pytest.mark.long
def test_a_real_scheduler_plans_the_same_with_one_of_two_workers_killed(
    shop: Path, planned: Path, tmp_path: Path
) -> None:
    said = tmp_path / "scheduler.json"
    engine = [sys.executable, "-m"]
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    begun = [
        subprocess.Popen(
            [*engine, "distributed.cli.dask_scheduler", "--host", "127.0.0.1", "--port", "0",
             "--no-dashboard", "--scheduler-file", said], **quiet,
        )
    ]  # fmt: skip
    try:
        until(lambda: said.exists() and said.stat().st_size > 0)
        address = json.loads(said.read_text(encoding="utf-8"))["address"]
        begun += [
            subprocess.Popen(
                [*engine, "distributed.cli.dask_worker", address, "--nthreads", "1", "--no-nanny",
                 "--no-dashboard", "--local-directory", tmp_path / name], **quiet,
            )
            for name in ("one", "two")
        ]  # fmt: skip
        out = tmp_path / "out"
        study = begin("study", shop / "opening.study.toml", "--out", out, "--scheduler", address)
        until(lambda: lines(out) >= 2, study)
        begun[1].kill()
        _, noted = study.communicate()
        assert study.returncode == 3, noted
        assert results(out) == results(planned)
    finally:
        for one in begun:
            one.kill()
            one.wait()


@pytest.mark.parametrize("count", ["0", "-1", "1000"])
def test_a_number_of_processes_that_cannot_be_is_one_sentence(tmp_path: Path, count: str) -> None:
    with pytest.raises(InputError, match=r"--processes .*from 1 to 256"):
        run_many([], HowToRun(folder=tmp_path, processes=int(count)), lambda _done, _before: None)


def test_no_scheduler_is_one_sentence(shop: Path, tmp_path: Path) -> None:
    study = shop / "opening.study.toml"
    asked = begin("study", study, "--out", tmp_path, "--scheduler", "nonsense")
    told, noted = asked.communicate()
    assert (asked.returncode, told) == (2, "")
    assert noted.startswith("--scheduler 'nonsense': no scheduler answers there")
    assert noted.count("\n") == 1


def test_a_folder_is_planned_with_those_that_cannot_be(tmp_path: Path) -> None:
    folder, out = tmp_path / "jobs", tmp_path / "out"
    folder.mkdir()
    shutil.copy(EXAMPLES / "shelf-bracket.toml", folder)
    shutil.copy(EXAMPLES / "dock-rack.toml", folder)  # no job
    sound = (EXAMPLES / "shelf-bracket.toml").read_text(encoding="utf-8")
    (folder / "broken.toml").write_text(sound.replace('"5"', '"5 furlongs"'), encoding="utf-8")
    (folder / "half.toml").write_text("[part\n", encoding="utf-8")
    (folder / "odd.toml").write_bytes(b"\xff\xfe name")
    (folder / "a-folder.toml").mkdir()
    batch = begin("batch", folder, "--out", out, "--processes", "1", "--papers")
    told, noted = batch.communicate()
    assert batch.returncode == 3
    assert "4 jobs: 1 planned, 3 not usable." in told
    assert noted == "Not a job, left out: dock-rack.toml.\n"
    found = {one["name"]: one for one in results(out)["cases"]}
    assert "furlongs" in found["broken"]["said"]
    assert "this is not a TOML file" in found["half"]["said"]
    assert "it is not UTF-8 text" in found["odd"]["said"]
    assert (out / "shelf-bracket" / "sheet.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("verb", ["batch", "study"])
def test_what_is_not_there_is_one_sentence(verb: str, tmp_path: Path) -> None:
    asked = begin(verb, tmp_path / "nothing", "--out", tmp_path / "out")
    told, noted = asked.communicate()
    assert (asked.returncode, told) == (2, "")
    assert noted.count("\n") == 1
    assert "nothing" in noted


def test_papers_never_leave_the_folder_of_results(tmp_path: Path) -> None:
    """The papers of ``...toml`` would go one folder up, those of ``..toml`` among the results."""
    sound = (EXAMPLES / "shelf-bracket.toml").read_text(encoding="utf-8")
    for name in ("...toml", "..toml", "._hook.toml", ".toml", "hook.toml"):
        (tmp_path / name).write_text(sound, encoding="utf-8")
    cases, left_out = jobs_in(tmp_path, papers=True)
    assert [one.name for one in cases] == ["hook"]
    assert left_out == ["...toml", "..toml", "._hook.toml"]


def test_a_job_file_with_its_ending_in_capitals_is_one_too(tmp_path: Path) -> None:
    sound = (EXAMPLES / "shelf-bracket.toml").read_text(encoding="utf-8")
    for name in ("HOOK.TOML", "strap.toml"):
        (tmp_path / name).write_text(sound, encoding="utf-8")
    assert [one.name for one in jobs_in(tmp_path, papers=False)[0]] == ["HOOK", "strap"]
    for name in ("rack.toml", "rack.TOML"):  # no jobs, so they stand in nobody's way
        (tmp_path / name).write_text('format = 1\nunits = "inch"\n', encoding="utf-8")
    assert [one.name for one in jobs_in(tmp_path, papers=False)[0]] == ["HOOK", "strap"]
    (tmp_path / "strap.Toml").write_text(sound, encoding="utf-8")
    if (tmp_path / "strap.toml").samefile(tmp_path / "strap.Toml"):
        return  # this disk does not tell the two names apart
    with pytest.raises(InputError, match="two job files are named strap; only the capitals"):
        jobs_in(tmp_path, papers=False)  # both would write the results of one


@pytest.mark.parametrize("name", ["results.json", "Results.JSON", "results.parquet", KEPT])
def test_papers_that_would_stand_in_the_way_of_a_result_are_refused_at_once(
    name: str, tmp_path: Path
) -> None:
    (tmp_path / f"{name}.toml").write_text("[part]\n", encoding="utf-8")
    with pytest.raises(InputError, match="a file of the results is called so; give the job"):
        jobs_in(tmp_path, papers=True)
    assert [one.name for one in jobs_in(tmp_path, papers=False)[0]] == [name]


@pytest.mark.parametrize("ends", ["well", "refused", "stopped"])
def test_the_line_of_the_progress_is_left_however_a_run_ends(
    ends: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def run(_: object, __: object, progress: Callable[[int, int], None], **___: object) -> Any:
        progress(2, 1)
        if ends == "stopped":
            raise KeyboardInterrupt
        raise InputError("--out", "the disk is full", "make room")

    monkeypatch.setattr(many_papers, "batch_papers", run)
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    if ends == "well":
        with shown_progress("jobs") as progress:
            progress(2, 1)
        said = ""
    else:
        main(["batch", "jobs", "--out", "out"])
        said = "stopped\n" if ends == "stopped" else "--out: the disk is full; make room.\n"
    shown = capsys.readouterr().err
    assert shown.endswith(f"\r2 jobs done, 1 of them kept from before ...   \n{said}")
