"""Cautions stand beside the figure that they belong to."""

from __future__ import annotations

from pathlib import Path

import pytest
from telling import told

from strapwright.cli.main import main
from strapwright.pages.form import open_form
from strapwright.pages.plan_page import loaded_caution
from strapwright.pages.push_answer import push_answer
from strapwright.planning.job_findings import CAUTIONS
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_text import plan_to_text
from strapwright.service.cylinder_figures import cautions
from strapwright.sheets.bend_data import bend_data
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.caution_words import ESTIMATE, NEVER_ABOVE, READ_LOADED, STALL

SOURCE = Path(__file__).resolve().parents[2] / "src" / "strapwright"
DEMO = SOURCE / "service" / "demo_jobs" / "fender-hanger.toml"
STROKE = [
    "stroke", "--bar", "flat 1/4 x 2 in", "--material", "A36 hot rolled", "--opening", "2-1/2 in",
    "--nose-radius", "1/2 in", "--shoulder-radius", "3/8 in", "--angle", "90", "--bore", "4 in",
]  # fmt: skip


@pytest.fixture(scope="module")
def hanger() -> Plan:
    return plan(read_job(DEMO.read_text(encoding="utf-8")), search=False)


def said(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    code = main(arguments)
    return code, " ".join(capsys.readouterr().out.split())


def test_force_carries_limit_and_estimate(capsys: pytest.CaptureFixture[str]) -> None:
    for efficiency in ([], ["--efficiency", "0.95"]):
        code, out = said(["force", "--bore", "4 in", "--pressure", "2500 psi", *efficiency], capsys)
        assert code == 0
        assert NEVER_ABOVE in out
        assert ESTIMATE in out
    assert cautions() == f"{NEVER_ABOVE} {ESTIMATE}"


def test_stroke_carries_limit_and_estimate(capsys: pytest.CaptureFixture[str]) -> None:
    code, out = said([*STROKE, "--relief", "2200 psi"], capsys)
    assert code == 0
    assert "The relief valve is set to 2200 psi." in out
    assert f"{NEVER_ABOVE} {ESTIMATE}" in out
    assert READ_LOADED in out


def test_a_stroke_past_the_relief_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    code, out = said([*STROKE, "--relief", "100 psi"], capsys)
    assert code == 3
    assert "opens at 100 psi, so this press cannot make this bend" in out
    assert "Do not raise the relief setting" in out


def test_more_carries_the_limits_of_its_bend(
    hanger: Plan, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out = said(["more", str(DEMO), "--bend", "1", "--stands", "40"], capsys)
    assert code == 0
    (step,) = (one for one in hanger.steps if one.bend == 1)
    page, wrong = push_answer(hanger, step, "40")
    assert not wrong
    for one in (out, page):
        assert "Stop and check above" in one
        assert "the relief valve" in one
        assert f"{NEVER_ABOVE} {ESTIMATE}" in one
        assert READ_LOADED in one


def test_an_angle_under_load_is_read_with_the_pump_off(hanger: Plan) -> None:
    assert READ_LOADED in " ".join(plan_to_text(hanger).split())
    assert bend_data(hanger, 0)["angles"]["caution"] == READ_LOADED
    assert READ_LOADED in loaded_caution()
    assert "pump off, from outside" in READ_LOADED


def test_the_press_is_stalled_safely_before_its_give_is_asked() -> None:
    form = open_form(DEMO.read_text(encoding="utf-8"), "press")
    asked = {field.group for field in form.fields if field.name.startswith("press.give")}
    assert {group: form.cautions[group] for group in asked} == dict.fromkeys(asked, STALL)
    assert asked
    template = (SOURCE / "web" / "templates" / "fields.html").read_text(encoding="utf-8")
    assert template.index("desk.form.cautions[group]") < template.index("row(field, value, note")


def test_oil_under_the_skin_goes_to_hospital_even_if_it_looks_small() -> None:
    (one,) = (one for one in CAUTIONS if "skin" in one)
    assert "go to hospital at once, even if it looks small" in one


def test_who_holds_a_long_end_is_told_where_the_hands_are_not() -> None:
    job = DEMO.read_text(encoding="utf-8")
    tips = [one for one in told(plan(read_job(job))) if one.code == "tips-before-touch"]
    assert tips
    for one in tips:
        assert "no hand under the bar or between bar, nose and shoulders" in one.remedy


def test_codes_and_licensed_practice_stand_on_every_page_and_sheet() -> None:
    for place in (
        "web/templates/base.html",
        "sheets/templates/template.typ",
        "making/plate_values.py",
        "strength/check_values.py",
    ):
        text = " ".join((SOURCE / place).read_text(encoding="utf-8").replace('"', "").split())
        assert "local codes and licensed practice" in text.lower(), place
    assert "Local codes and licensed practice come first" in ESTIMATE
