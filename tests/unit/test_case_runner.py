"""The case runner judges by the rules of the case files, and a bad file fails with a sentence."""

from __future__ import annotations

import importlib
import importlib.util
import json
import math
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from strapwright.bending.model_error import ModelError
from strapwright.bending.solver_model import Effects

VALIDATION = Path(__file__).parents[2] / "validation"
sys.path.append(str(VALIDATION))

import carried_constants  # noqa: E402  # scripts, not a package
import stroke_cases  # noqa: E402
from case_files import Verdict  # noqa: E402

_SPEC = importlib.util.spec_from_file_location("validation_run", VALIDATION / "run.py")
assert _SPEC is not None
assert _SPEC.loader is not None
run = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(run)

Case = dict[str, Any]


def case_file(name: str) -> Case:
    text = (VALIDATION / "cases" / "stroke" / f"{name}.json").read_text(encoding="utf-8")
    case: Case = json.loads(text)
    return case


def figures(case: Case) -> dict[str, float]:
    found: dict[str, float] = stroke_cases.run(case)["figures"]
    return found


def off_by(**errors: float) -> stroke_cases.Figures:
    sound = dict.fromkeys(
        ("force_mean", "force_bias", "force_peak", "angle_rms", "angle_peak", "angle_end"), 0.0
    )
    return stroke_cases.Figures(**{**sound, "springback": 0.0, **errors})


TOLERANCE = stroke_cases.Tolerance(
    force_mean=0.02, force_peak=0.05, angle_rms=0.45, springback=0.15
)
BAND = ModelError(
    force=0.1, angle=math.radians(1.0), springback=math.radians(0.3), reasons=("it is narrow",)
)


@pytest.mark.parametrize(
    ("errors", "verdict", "why"),
    [
        ({"force_mean": 0.02, "springback": -0.15}, Verdict.WITHIN, ""),
        ({"force_mean": 0.021, "force_peak": 0.04}, Verdict.FLAGGED, "it is narrow"),
        ({"springback": -0.2}, Verdict.FLAGGED, "springback"),
        ({"force_peak": 0.11}, Verdict.FAIL, "outside our own band"),
        ({"angle_rms": 0.5, "angle_peak": 1.1}, Verdict.FAIL, "outside our own band"),
        ({"springback": -0.31}, Verdict.FAIL, "outside our own band"),
        ({"force_mean": math.nan}, Verdict.FAIL, "mean force"),
    ],
)
def test_verdicts(errors: dict[str, float], verdict: Verdict, why: str) -> None:
    if "force_mean" in errors and math.isnan(errors["force_mean"]):
        errors = {**errors, "force_peak": math.nan}
    found, sentences = stroke_cases.judge(off_by(**errors), TOLERANCE, BAND)
    assert found is verdict
    assert why in " ".join(sentences)


def test_a_miss_without_a_finding_is_a_failure() -> None:
    silent = ModelError(force=0.1, angle=0.1, springback=0.1, reasons=())
    found, sentences = stroke_cases.judge(off_by(force_peak=0.06), TOLERANCE, silent)
    assert found is Verdict.FAIL
    assert "no finding says why" in sentences[-1]


def test_rows_count_as_the_case_file_says() -> None:
    sound = case_file("O2")  # force counts up to 90 % of the travel, angles have their own travel
    travel = sound["curve"]["travel_mm"]
    before = figures(sound)
    for row, share in enumerate(h / travel[-1] for h in travel):
        if not 0.08 <= share <= 0.9:
            sound["curve"]["force_N_per_mm"][row] *= 3.0
    angle_travel = sound["curve"]["angle_travel_mm"]
    for row, share in enumerate(h / angle_travel[-1] for h in angle_travel):
        if share < 0.08:
            sound["curve"]["loaded_angle_deg"][row] += 50.0
    assert figures(sound) == before


def test_errors_are_those_of_the_solver_against_the_reference() -> None:
    sound = case_file("A")
    before = figures(sound)
    sound["curve"]["force_N_per_mm"] = [1.1 * f for f in sound["curve"]["force_N_per_mm"]]
    sound["curve"]["loaded_angle_deg"][-1] += 2.0
    sound["final"]["free_angle_deg"] += 0.5
    after = figures(sound)
    assert 1.0 + after["force_bias_rel"] == pytest.approx((1.0 + before["force_bias_rel"]) / 1.1)
    assert after["angle_end_deg"] == pytest.approx(before["angle_end_deg"] - 2.0)
    assert after["springback_deg"] == pytest.approx(before["springback_deg"] + 0.5)


def change(*path: str, to: Any) -> Callable[[Case], None]:
    def apply(case: Case) -> None:
        *parts, last = path
        for part in parts:
            case = case[part]
        case[last] = to

    return apply


@pytest.mark.parametrize(
    ("spoil", "sentence"),
    [
        (change("kind", to="weigh"), "kind 'weigh' is not known; known are: "),
        (change("tooling", to={}), "tooling.opening_mm: the key is missing; add it"),
        (change("bar", to=3), "bar '3': is not an object"),
        (change("friction", to="0.1"), "friction '0.1': is not a number; give a finite number"),
        (change("friction", to=True), "friction 'True': is not a number"),
        (change("material", "law", to="odd"), "law 'odd': is not known; use one of swift, linear"),
        (change("material", "e0", to=-1), "material.e0 '-1': must be more than 0"),
        (change("curve", "travel_mm", to=[2, 1]), "curve: columns differ in length"),
        (change("curve", "travel_mm", to=[1.0] * 87), "curve: travel does not rise"),
        (change("force_counts_between", to=[0.9]), "is not two rising shares from 0 to 1"),
        (change("force_counts_between", to=[0.0001, 0.0002]), "curve: no row counts"),
        (change("bar", "thickness_mm", to=-6), "must be more than 0; give the bar thickness"),
        (change("final", "travel_mm", to=900), "cannot be reached: the tooling jams"),
    ],
)
def test_a_wrong_file_fails_with_a_sentence(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    spoil: Callable[[Case], None],
    sentence: str,
) -> None:
    case = case_file("A")
    spoil(case)
    (tmp_path / "deep").mkdir()
    (tmp_path / "deep" / "spoilt.json").write_text(json.dumps(case), encoding="utf-8")
    assert run.main(["--cases", str(tmp_path)]) == 1
    printed = capsys.readouterr().out
    assert "deep/spoilt.json: " in printed
    assert sentence in printed
    assert "1 cases: 0 within, 0 flagged, 1 fail" in printed


@pytest.mark.parametrize("content", [b"{", b"\xff\xfe", b"[1]", b'{"kind": NaN}', b""])
def test_a_file_that_is_no_case_fails_with_a_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], content: bytes
) -> None:
    (tmp_path / "odd.json").write_bytes(content)
    assert run.main(["--cases", str(tmp_path)]) == 1
    assert "odd.json: file: it " in capsys.readouterr().out


def test_nothing_to_run_is_not_a_success(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run.main(["--cases", str(tmp_path)]) == 1
    assert "no case file ends in .json" in capsys.readouterr().out
    assert run.main(["--cases", str(tmp_path / "none")]) == 1
    assert "there is no such folder" in capsys.readouterr().out


def test_a_case_carries_a_constant_that_moves_its_figures() -> None:
    def misses(case: int, effects: Effects) -> np.ndarray:
        # The first case feels the drop, the second the zone, a tenth of it just not enough.
        return np.array([5.0 * effects.drop if case == 0 else 2.5 * effects.zone, 1.0])

    found = carried_constants.carriers(("drop", "zone", "dent"), ("one", "two"), misses)
    assert found == {"drop": ("one",), "zone": (), "dent": ()}


def test_a_case_whose_truth_is_in_doubt_says_so() -> None:
    case = case_file("O2")
    assert stroke_cases.run(case)["why"] == ()
    (said,) = stroke_cases.run({**case, "name": "O7"})["why"]
    assert "its truth is in doubt: 8.02 deg of springback" in said


def test_own_stroke_cases_do_not_fail_and_the_results_can_be_kept(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = tmp_path / "results.json"
    folder = VALIDATION / "cases" / "stroke"
    assert run.main(["--cases", str(folder), "--json", str(kept)]) == 0
    printed = capsys.readouterr().out
    results = json.loads(kept.read_text(encoding="utf-8"))
    assert {r["name"] for r in results} == {p.stem for p in folder.glob("*.json")}
    for result in results:
        assert result["verdict"] in {"within", "flagged"}
        assert f"{result['line']}: {result['verdict']}" in printed
    assert run.main(["--cases", str(folder), "--json", str(tmp_path / "no" / "x.json")]) == 1


@pytest.mark.parametrize("name", run.TABLES)
def test_the_longer_tables_are_printed_by_their_scripts(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[list[str]] = []

    def main(arguments: list[str]) -> int:
        asked.append(arguments)
        return 3

    monkeypatch.setattr(importlib.import_module(run.TABLES[name]), "main", main)
    assert run.main(["--table", name]) == 3
    assert run.main(["--table", name, "--json", str(tmp_path / "x.json")]) == 3
    assert asked == [[], ["--json", str(tmp_path / "x.json")]]
