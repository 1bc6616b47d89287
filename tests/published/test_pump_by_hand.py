# ruff: noqa: E501  (a row a refusal: the sentence stands as it is read)
"""Strokes and handle of a hand pump, seconds of a powered one, worked out by hand.

Conservation of volume, Pascal's law and the law of the lever, as any text on fluid power has them.
The share lost on packing and pins is common practice, no source.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from attrs import evolve

from strapwright.errors import InputError
from strapwright.planning.limits_and_weights.pumping import (
    EASY_FORCE,
    PumpWork,
    handle_force,
    pump_work,
)
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.report.plan_json import plan_to_data
from strapwright.report.plan_text import plan_to_text
from strapwright.shop.by_hand.hand_pump import HandPump
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job
from strapwright.wording.figures import figures_for
from strapwright.wording.limits_and_weights.pump_words import pump_words

PSI, LBF, IN3 = 0.00689475729, 4.4482216, 25.4**3
JOB = """\
format = 1
units = "inch"
[part]
name = "mast collar strap"
bar = "flat 1/4 x 2"
material = "A36"
shape = ["5", "up 90", "6"]
[press]
bore = "2-1/2"
relief = "3000 psi"
stroke = "6"
{pump}
[tooling]
nose = {{ radius = "1/2", web = {{ thick = "1/2", height = "6" }} }}
shoulders = {{ radius = "3/8", opening = "2-1/2" }}
"""
ONE = 'hand_pump = { volume = "0.5 in3", strokes_per_minute = 30 }'
TWO = (
    'hand_pump = { volume = "0.5 in3", strokes_per_minute = 30, low_volume = "2 in3", '
    'changes_at = "300 psi", piston = "1/2", lever = "24", arm = "1-1/2" }'
)


def made(pump: str) -> Plan:
    return plan(read_job(JOB.format(pump=pump)), search=False)


def work_of(one: Plan) -> PumpWork:
    found = pump_work(one.job.press, one.steps[0])
    assert found is not None
    return found


def test_strokes_are_the_oil_over_the_oil_of_one_stroke() -> None:
    one = made(ONE)
    step, found = one.steps[0], work_of(one)
    # 2-1/2 in bore: 4.909 in2; of 0.5 in3 a stroke moves the ram 0.10186 in.
    assert found.whole == pytest.approx(step.setting.travel / 25.4 / 0.10186, rel=1e-3)
    assert step.staged is not None
    assert found.first == pytest.approx(step.staged.first_travel / 25.4 / 0.10186, rel=1e-3)
    assert found.seconds == pytest.approx(found.whole * 2.0)
    assert found.handle is None


def test_the_low_stage_works_until_it_changes_over() -> None:
    one = made(TWO)
    step = one.steps[0]
    # A force that rises evenly to 8 kN over 10 mm.  300 psi on 3167 mm2 at 95 % is 6.223 kN, met at
    # 7.78 mm; below it a stroke of 2 in3 moves 32774/3167 = 10.35 mm, above it 0.5 in3 2.587 mm:
    # 7.78/10.35 + 2.22/2.587 = 0.752 + 0.858 = 1.61 strokes.
    x = np.linspace(0.0, 10.0, 2001)
    ramp = evolve(
        step,
        setting=evolve(step.setting, travel=10.0),
        curve=evolve(step.curve, travel=x, force=800.0 * x),
        staged=None,
    )
    found = pump_work(one.job.press, ramp)
    assert found is not None
    assert found.whole == pytest.approx(1.61, abs=0.005)
    assert found.first is None
    # Two stages never need more strokes than the high one alone.
    whole = work_of(one).whole
    alone = work_of(made(ONE)).whole
    assert whole is not None
    assert alone is not None
    assert alone / 4 < whole < alone


def test_force_on_the_handle() -> None:
    pump = HandPump(volume=1.0, strokes_per_minute=30.0, piston=12.7, lever=609.6, arm=38.1)
    # 2000 psi on 1/2 in: 0.19635 in2, 392.7 lbf; by 1-1/2 to 24 in: 24.54 lbf; over 0.9: 27.27 lbf.
    found = handle_force(pump, 2000 * PSI)
    assert found is not None
    assert found / LBF == pytest.approx(27.27, rel=1e-3)
    # 12 mm, 200 bar, 40 to 600 mm: 20 x 113.1 = 2262 N, 150.8 N, over 0.9 167.6 N.
    metric = HandPump(volume=1.0, strokes_per_minute=30.0, piston=12.0, lever=600.0, arm=40.0)
    assert handle_force(metric, 20.0) == pytest.approx(167.55, abs=0.05)
    assert handle_force(evolve(pump, lever=None), 10.0) is None


def test_the_low_stage_takes_more_force_on_the_handle() -> None:
    pump = HandPump(
        volume=2000.0,
        strokes_per_minute=30.0,
        low_volume=13000.0,
        changes_at=4.0,
        piston=12.0,
        lever=600.0,
        arm=40.0,
    )
    # 13 cm3 a stroke where the high stage moves 2 is 6.5 times its 113.1 mm2, 735.1 mm2.  At 15 bar
    # 1.5 x 735.1 = 1102.7 N; by 40 to 600 mm 73.5 N, over 0.9 81.68 N.
    assert handle_force(pump, 1.5) == pytest.approx(81.68, abs=0.02)
    # Up to 100 bar it is hardest at 40 bar, before the low stage lets go: 4 x 735.1 = 2940.5 N,
    # 217.8 N on the handle.  The high stage has 83.8 N at 100 bar.
    assert handle_force(pump, 10.0) == pytest.approx(217.8, abs=0.1)
    # At 300 bar the high stage is harder: 30 x 113.1 = 3392.9 N, 251.3 N on the handle.
    assert handle_force(pump, 30.0) == pytest.approx(251.3, abs=0.1)


def test_a_handle_too_hard_is_told_and_an_easy_one_is_not() -> None:
    easy = made(TWO)
    assert "handle-too-hard" not in {one.code for one in easy.findings}
    hard = made(TWO.replace('piston = "1/2"', 'piston = "1-1/4"').replace('"24"', '"8"'))
    work = work_of(hard)
    assert work.handle_most is not None
    assert work.handle_most > EASY_FORCE
    assert "handle-too-hard" in {one.code for one in hard.findings}
    assert "The pump handle may take" in " ".join(plan_to_text(hard).split())
    # What the handle takes follows the gauge at its highest.
    gauge = hard.steps[0].gauge
    assert gauge is not None
    top = max(gauge.peak, gauge.high) * math.pi * 31.75**2 / 4 * 1.5 / 8 / 0.9
    assert work.handle_most == pytest.approx(top)


def test_a_powered_pump_takes_seconds() -> None:
    one = made('pump = "0.5 gpm"')
    found = work_of(one)
    # Half a gallon a minute is 1.925 in3/s, over 4.909 in2 0.3921 in/s.
    assert found.seconds == pytest.approx(one.steps[0].setting.travel / 25.4 / 0.3921, rel=1e-3)
    assert (found.first, found.whole, found.handle) == (None, None, None)
    assert "s of pumping from first contact" in " ".join(plan_to_text(one, details=True).split())
    data = plan_to_data(one)["steps"][0]["pump"]
    assert data["seconds"] == found.seconds
    assert data["strokes"] is None
    assert pump_work(None, one.steps[0]) is None
    assert plan_to_data(made(""))["steps"][0]["pump"] is None


def test_strokes_and_forces_are_rounded_up() -> None:
    show = figures_for(made(ONE).job)
    work = PumpWork(first=8.2, whole=10.0001, seconds=20.0, handle=100.1, handle_most=130.0)
    assert pump_words(work, show) == (
        "about 11 strokes from first contact (about 20 s of pumping), the first push 9 strokes; "
        "23 lbf at the handle, up to 30 lbf"
    )
    assert pump_words(None, show) == ""


def test_a_hand_pump_is_written_as_it_was_read() -> None:
    for pump in (ONE, TWO):
        job = read_job(JOB.format(pump=pump))
        assert read_job(write_job(job)) == job
        assert job.press is not None
        assert job.press.flow == pytest.approx(0.5 * IN3 * 30 / 60)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (', changes_at = "300 psi"', "", "press.hand_pump.low_volume (line 12) '2 in3': a pump of two stages needs changes_at too; add changes_at, or leave low_volume out."),
        ('"2 in3"', '"0.4 in3"', "press.hand_pump.low_volume (line 12) '0.4 in3': the low-pressure stage moves no more oil than the high one; give the larger volume, above 0.5 in3, or leave it out."),
        (', lever = "24"', "", "press.hand_pump.piston (line 12) '1/2': the force at the handle needs lever too; write piston, lever and arm, or none of them."),
        ('arm = "1-1/2"', 'arm = "30"', "press.hand_pump.arm (line 12) '30': the arm is not shorter than the lever; measure both from the pivot; give less than 24."),
    ],
)  # fmt: skip
def test_a_pump_that_cannot_be_is_refused(old: str, new: str, said: str) -> None:
    assert TWO.count(old) == 1
    with pytest.raises(InputError) as caught:
        read_job(JOB.format(pump=TWO.replace(old, new)))
    assert caught.value.sentence == said
