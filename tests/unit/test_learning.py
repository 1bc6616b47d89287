"""What readings at the press teach of bar, press and tooling."""

from __future__ import annotations

import math

import numpy as np
import pytest
from attrs import evolve

from strapwright.bending import BendSetup, FlowCurve, state_at_travel
from strapwright.bending.bend_band import Spreads
from strapwright.bending.kernel_sample import FORCE_OUT, push_draws
from strapwright.bending.learned_spread import SCALE, TOUCH, ZERO, LearnedSpread
from strapwright.bending.solver_model import FITTED, kernel_inputs, rule_for
from strapwright.errors import BendAt
from strapwright.learning.learn import Learned, learn
from strapwright.learning.log_readings import Places, Push, Reading
from strapwright.learning.log_spreads import LogSpreads
from strapwright.learning.reading_model import ReadingModel
from strapwright.planning.made_bend import make_bend
from strapwright.shop.tooling import Shoulders

SETUP = BendSetup(
    section="flat",
    thickness=6.35,
    width=50.8,
    opening=63.5,
    nose_radius=12.7,
    shoulder_radius=9.525,
    friction=0.1,
    flow=FlowCurve(modulus=2.05e5, poisson=0.3, strength=780.0, offset=0.008, exponent=0.2),
    unloading_ratio=0.85,
)
SPREADS = Spreads(
    strength=0.1,
    exponent=0.03,
    thickness=0.018,
    friction=0.04,
    unloading=0.05,
    opening=0.15,
    touch=0.3 / 1.645,
    give=0.0,
    reading=0.03,
    protractor=0.004,
)
PLACES = Places(lot="lot", press="press", tooling="tooling", mounting="1", part="1")
PER_FORCE = 1.0 / 4000.0  # MPa/N
PUSH = Push(setup=SETUP, spreads=SPREADS, places=PLACES, per_force=PER_FORCE)
TRUE = LearnedSpread(
    mean=(0.12, 0.0, 0.01, 0.0, 0.0, 0.0, 0.0, 0.2, 0.0, 0.0, 0.0, 0.0, 0.1),
    root=tuple((0.0,) * 13 for _ in range(13)),
    readings=0,
)


def read(entry: str, travel: float, part: str = "1", *, off: float = 0.0) -> Reading:
    """What the true bar shows, found touching 0.2 mm late, on a gauge 0.1 MPa off its zero."""
    state = state_at_travel(TRUE.middle(SETUP), travel + TRUE.mean[TOUCH])
    return Reading(
        entry=entry,
        push=evolve(PUSH, places=evolve(PLACES, part=part)),
        travel=travel,
        free=state.free_angle + math.radians(off),
        gauge=state.force * PER_FORCE + TRUE.mean[ZERO],
    )


def free_after(learned: Learned, travel: float, part: str = "new") -> float:
    push = evolve(PUSH, places=evolve(PLACES, part=part))
    known = learned.spread(push, state_at_travel(SETUP, travel).loaded_angle)
    state = state_at_travel(known.middle(SETUP), travel + known.mean[TOUCH])
    return math.degrees(state.free_angle + known.mean[9] - known.mean[10])


def deviations(known: LearnedSpread) -> np.ndarray:
    root = np.array(known.root)
    return np.sqrt(np.diag(root @ root.T))


def test_before_any_reading_everything_is_as_the_shop_states_it() -> None:
    known = learn([]).spread(PUSH, math.radians(92.0))
    assert known.mean == (0.0,) * 13
    spread = deviations(known)
    assert spread[:7] == pytest.approx((0.1, 0.03, 0.018, 0.04, 0.05, 0.15, 0.0))
    # The stop comes back to within 0.02 mm, beside how well first contact is found.
    assert spread[TOUCH] == pytest.approx(math.hypot(SPREADS.touch, 0.02))
    assert known.middle(SETUP) == SETUP


def test_one_bend_brings_the_next_within_half_a_degree_and_three_bring_the_strength() -> None:
    travel = 17.0
    true = math.degrees(read("", travel).free or 0.0)
    assert abs(free_after(learn([]), travel) - true) > 0.7
    assert abs(free_after(learn([read("a", travel)]), travel) - true) < 0.2
    three = learn([read("a", 8.0), read("b", 13.0, "2"), read("c", 17.0, "3")])
    assert abs(free_after(three, 11.0) - math.degrees(read("", 11.0).free or 0.0)) < 0.2
    known = three.spread(PUSH, math.radians(75.0))
    # It reads what the gauge will read within 2 %, though strength, thickness and zero share it.
    state = state_at_travel(known.middle(SETUP), 15.0 + known.mean[TOUCH])
    gauge = state.force * PER_FORCE * (1.0 + known.mean[8]) * (1.0 + known.mean[SCALE])
    assert gauge + known.mean[ZERO] == pytest.approx(read("", 15.0).gauge, rel=0.02)


def test_what_moved_a_figure_adds_up_and_every_line_stands_in_it() -> None:
    learned = learn([read("a", 8.0), read("b", 17.0)])
    assert learned.entries == ("a", "b")
    assert learned.moves.sum(axis=1) == pytest.approx(learned.mean, abs=2e-3)
    assert np.all(np.abs(learned.moves).max(axis=0) > 0.05)


def test_no_reading_makes_anything_less_known() -> None:
    readings = [read(str(i), travel, str(i)) for i, travel in enumerate((17.0, 9.0, 14.0, 17.0))]
    before = deviations(learn([]).spread(PUSH, math.radians(92.0)))
    for count in range(1, 5):
        now = deviations(learn(readings[:count]).spread(PUSH, math.radians(92.0)))
        # The solver is not straight: where it is looked at moves a spread by a thousandth.
        assert np.all(now <= 1.001 * before + 1e-9)
        before = now


@pytest.mark.parametrize("late", [-0.4, 0.0, 0.4])
def test_after_a_first_push_the_second_on_that_part_is_sure_however_contact_was_found(
    late: float,
) -> None:
    first = evolve(read("a", 14.0 + late), travel=14.0, gauge=None)
    learned = learn([first])
    true = math.degrees(read("", 16.0 + late).free or 0.0)
    assert abs(free_after(learned, 16.0, part="1") - true) < 0.25
    if late:
        assert abs(free_after(learn([]), 16.0) - true) > 1.0


def test_a_new_mounting_keeps_half_of_what_was_learned_of_first_contact() -> None:
    learned = learn([read(str(i), 10.0 + i, str(i)) for i in range(5)])

    def touch(mounting: str) -> tuple[float, float]:
        push = evolve(PUSH, places=evolve(PLACES, mounting=mounting, part="new"))
        known = learned.spread(push, math.radians(80.0))
        return known.mean[TOUCH], float(deviations(known)[TOUCH])

    (same, sure), (again, less) = touch("1"), touch("2")
    assert again == pytest.approx(0.5 * same, rel=0.02)
    assert sure < less < SPREADS.touch


def test_a_reading_that_the_others_cannot_explain_is_shown_and_still_counted() -> None:
    sound = [read(str(i), 10.0 + 1.5 * i, str(i)) for i in range(5)]
    assert learn(sound).outliers == ()
    slip = read("slip", 13.0, "9", off=5.0)
    learned = learn([*sound, slip])
    assert {one.entry for one in learned.outliers} == {"slip"}
    (found,) = learned.outliers
    assert found.kind == "free"
    assert math.degrees(found.value - found.foretold) == pytest.approx(5.0, abs=0.5)
    assert "slip" in learned.entries
    assert free_after(learned, 13.0) > free_after(learn(sound), 13.0) + 0.1


def test_one_absurd_reading_carries_nothing_away_and_is_shown() -> None:
    learned = learn([read("slip", 13.0, off=80.0)])
    assert np.max(np.abs(learned.mean)) <= 4.0
    assert [one.entry for one in learned.outliers] == ["slip"]
    known = learned.spread(PUSH, math.radians(60.0))
    assert abs(known.mean[TOUCH]) < 4.0 * (math.sqrt(2.0) * SPREADS.touch + 0.03)


def test_a_travel_past_the_jam_teaches_nothing_and_is_named() -> None:
    far = evolve(read("far", 17.0), travel=60.0)
    learned = learn([read("near", 17.0), far])
    assert learned.not_reached == ("far",)
    assert learned.entries == ("near",)


def test_another_lot_on_the_same_press_learns_of_the_press_alone() -> None:
    learned = learn([read(str(i), 10.0 + i, str(i)) for i in range(4)])
    other = evolve(PUSH, places=evolve(PLACES, lot="another", tooling="another"))
    known = learned.spread(other, math.radians(80.0))
    assert known.mean[:7] == (0.0,) * 7
    assert known.mean[ZERO] != 0.0
    assert deviations(known)[SCALE] < math.hypot(SPREADS.reading, 0.01)


def test_an_upper_yield_goes_with_the_strength_as_it_does_in_the_sample() -> None:
    peaked = evolve(SETUP, flow=evolve(SETUP.flow, peak=60.0, peak_gone=0.003))
    found = LearnedSpread(mean=(0.2, *TRUE.mean[1:]), root=TRUE.root, readings=1).middle(peaked)
    assert found.flow.peak == pytest.approx(60.0 * math.exp(0.2))
    # Strength as a draw of the sample takes the whole curve up by one factor.
    drawn = push_draws(
        kernel_inputs(peaked),
        FITTED.switches,
        rule_for(peaked.flow, FITTED),
        draws=np.array([[math.exp(0.2), 0.0, math.exp(0.01), 0.0, 1.0, 0.0, 0.0]]),
        travels=np.array([[14.0]]),
        angle=0.0,
        guess=0.3,
    )[0][0, 0]
    state = state_at_travel(found, 14.0)
    assert state.force == pytest.approx(drawn[FORCE_OUT], rel=2e-3)


def test_pressures_read_too_low_count_no_more_than_those_read_too_high() -> None:
    # Nine pairs, each 10 % above and below what the bar shows: their mean is what it shows.
    log = LogSpreads(gauge=0.1, piece=0.0)
    pairs = [(f"{i}", share) for i in range(9) for share in (1.1, 0.9)]
    readings = []
    for i, (part, share) in enumerate(pairs):
        one = read(f"{i}", 14.0, part)
        assert one.gauge is not None
        readings.append(evolve(one, free=None, gauge=share * one.gauge))
    known = learn(readings, log).spread(PUSH, math.radians(75.0))
    state = state_at_travel(known.middle(SETUP), 14.0 + known.mean[TOUCH])
    shown = state.force * PER_FORCE * (1.0 + known.mean[8]) * (1.0 + known.mean[SCALE])
    # By each reading's own share the mean would come out 2 x 0.1^2 low.
    assert shown + known.mean[ZERO] == pytest.approx(read("", 14.0).gauge, rel=0.007)


def test_contact_found_early_leaves_a_band_of_a_shallow_bend_that_can_be_drawn() -> None:
    # A twelfth of the travel is less than the ram goes before it meets the bar.
    early = LearnedSpread(
        mean=(0.0,) * TOUCH + (-0.6,) + (0.0,) * 5,
        root=tuple(tuple(0.01 * (i == j) for j in range(13)) for i in range(13)),
        readings=1,
    )
    shoulders = Shoulders(radius=SETUP.shoulder_radius, opening=SETUP.opening, floor="open")
    made = make_bend(SETUP, math.radians(9.0), evolve(SPREADS, learned=early), shoulders, BendAt(1))
    assert 0.12 * made.state.travel < 0.6
    assert np.all(np.isfinite(made.force_low))
    assert np.all(made.force_high >= made.force_low)


def test_an_angle_measured_four_times_is_known_twice_as_well() -> None:
    # Deviation of a mean of n independent values: that of one over the root of n.
    for looks, hits, share in ((1, 1, 1.0), (4, 1, 0.5), (4, 3, 0.5 / 3.0)):
        one = evolve(read("a", 14.0), gauge=None, looks=looks, hits=hits)
        noise = ReadingModel([one], LogSpreads(), FITTED).noise(np.zeros(1))
        assert noise == pytest.approx([0.004 * share])


def test_the_same_readings_are_learned_from_once_and_nobody_changes_what_came_of_it() -> None:
    readings = [read("a", 14.0), read("b", 17.0)]
    first = learn(readings)
    assert learn(list(readings)) is first
    assert learn(readings[:1]) is not first
    with pytest.raises(ValueError, match="read-only"):
        first.mean[0] = 1.0
