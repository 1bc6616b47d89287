"""Jobs planned in processes of which some die."""

import time
from pathlib import Path

import psutil
import pytest

from strapwright.service.many_jobs import local_processes
from strapwright.service.many_jobs.case_values import Case

# A process begun afresh finds the planner by its module, so it needs one of its own.
PLANNER = """import os
from strapwright.service.many_jobs.case_values import CaseResult

def plan_case(case, digest):
    if case.text == "kills":
        os._exit(9)
    return CaseResult(name=case.name, outcome="planned")
"""


def test_a_job_that_kills_its_process_is_given_up_and_no_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "planner_of_this_test.py").write_text(PLANNER, encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    from planner_of_this_test import plan_case  # noqa: PLC0415

    monkeypatch.setattr(local_processes, "plan_case", plan_case)
    cases = [Case(name=str(n), text="kills" if n in (1, 5) else "plans") for n in range(7)]
    done = list(local_processes.plan_locally(iter(cases), 2, "digest"))
    assert sorted((one.name, one.outcome) for one in done) == [
        (str(n), "failed" if n in (1, 5) else "planned") for n in range(7)
    ]
    assert {one.said for one in done if one.outcome == "failed"} == {local_processes.DIED}


def test_no_job_is_lost_where_a_process_dies_while_nobody_waits(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As while the papers of the last job are being written."""
    (tmp_path / "planner_of_this_test.py").write_text(PLANNER, encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    from planner_of_this_test import plan_case  # noqa: PLC0415

    monkeypatch.setattr(local_processes, "plan_case", plan_case)
    cases = [Case(name=str(n), text="plans") for n in range(6)]
    done = []
    for result in local_processes.plan_locally(iter(cases), 1, "digest"):
        done.append(result.name)
        if len(done) == 1:
            for one in psutil.Process().children():
                if "multiprocessing.spawn" in str(one.cmdline()):
                    one.kill()
                    one.wait()
            time.sleep(0.3)  # until the pool has seen it
    assert sorted(done) == [str(n) for n in range(6)]
