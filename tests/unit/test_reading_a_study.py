"""The file of a study: what it makes of a job, and what it refuses in one sentence."""

import pytest

from strapwright.errors import InputError
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.studies.reading_study import MOST_CASES, cases_of, read_study

JOB = """format = 1
units = "inch"  # kept

[part]
name = "cleat"
bar = "flat 1/4 x 2"
material = "A36 hot rolled"
measured = "outside"
shape = ["5", "up 90", "6"]

[press]
bore = "3-1/2"
relief = "2000 psi"
"""
HEAD = 'format = 1\njob = "cleat.toml"\n'
VARY = '[[vary]]\nkey = "press.relief"\n'
RELIEF = HEAD + VARY


def cases(body: str, head: str = HEAD) -> list:
    return list(cases_of(read_study(head + body, "s.toml"), JOB))


def test_every_set_of_values_is_a_job_and_the_rest_of_the_file_stays() -> None:
    found = cases(
        '[[vary]]\nkey = "press.relief"\nfrom = "1500 psi"\nto = "2000 psi"\nsteps = 3\n'
        '[[vary]]\nkey = "part.shape[1]"\nvalues = ["5", "5-1/2"]\n'
    )
    assert [one.varied for one in found] == [
        {"press.relief": relief, "part.shape[1]": leg}
        for relief in ("1500 psi", "1750 psi", "2000 psi")
        for leg in ("5", "5-1/2")
    ]
    assert [one.name for one in found] == ["1", "2", "3", "4", "5", "6"]
    assert all('units = "inch"  # kept' in one.text for one in found)
    jobs = [read_job(one.text) for one in found]
    assert jobs[0].press.relief == pytest.approx(1500 * 0.006894757293168)  # MPa in a psi, exact
    assert jobs[1].part.legs[0] == pytest.approx(5.5 * 25.4)


def test_fractions_are_stepped_through_as_lengths() -> None:
    found = cases(
        '[[vary]]\nkey = "part.inside_radius"\nfrom = "1/4 in"\nto = "1/2 in"\nsteps = 3\n'
    )
    radii = [read_job(one.text).part.inside_radius for one in found]
    assert radii == pytest.approx([6.35, 9.525, 12.7])


def test_draws_fall_one_into_each_part_of_the_range_and_are_the_same_again() -> None:
    body = '[[vary]]\nkey = "press.relief"\nbetween = ["1500 psi", "2000 psi"]\n'
    head = f"{HEAD}draws = 20\nseed = 5\n"
    found = cases(body, head)
    drawn = [float(str(one.varied["press.relief"]).removesuffix(" psi")) for one in found]
    # A Latin hypercube: each of the 20 equal parts of the range holds one draw.
    assert sorted(int((value - 1500.0) / 25.0) for value in drawn) == list(range(20))
    assert [one.varied for one in cases(body, head)] == [one.varied for one in found]
    assert [one.varied for one in cases(body, head.replace("5", "6"))] != [
        one.varied for one in found
    ]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("format = 1\n", "s.toml: job: this is missing"),
        (HEAD, "s.toml: vary: nothing varies"),
        (RELIEF, "no values are given"),
        (RELIEF + 'values = ["1 psi"]\nfrom = "2 psi"\n', "both given"),
        (RELIEF + 'from = "2 psi"\nsteps = 3\n', "this is missing; write where the figure ends"),
        (
            RELIEF + 'from = "2 psi"\nto = "3 bar"\nsteps = 3\n',
            "the two ends are not in one unit",
        ),
        (RELIEF + 'from = "x"\nto = "3 bar"\nsteps = 3\n', "no number"),
        (
            RELIEF + 'between = ["2 psi", "3 psi"]\n',
            "it is not said how often to draw",
        ),
        (RELIEF + "values = [nan, 1.0]\n", "this is no figure"),
        (RELIEF + "between = [1.0, inf]\n", "this is no figure"),
        (HEAD + "draws = 5\n" + VARY + 'values = ["2 psi"]\n', "nothing is drawn"),
        (RELIEF + 'values = ["2 psi", "2 psi"]\n', "there twice"),
        (HEAD + 2 * (VARY + 'values = ["2 psi"]\n'), "this key is there twice"),
        (HEAD + '[[vary]]\nkye = "press.relief"\nvalues = ["2 psi"]\n', 'did you mean "key"'),
        (
            RELIEF + 'from = 1\nto = 2\nsteps = 1000\n'
            '[[vary]]\nkey = "press.bore"\nfrom = 1\nto = 2\nsteps = 1000\n',
            f"{MOST_CASES} at most",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_meant_is_one_sentence(text: str, said: str) -> None:
    with pytest.raises(InputError) as refused:
        read_study(text, "s.toml")
    assert said in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_key_that_no_job_has_is_refused_with_the_nearest() -> None:
    with pytest.raises(InputError, match='did you mean "relief"'):
        cases('[[vary]]\nkey = "press.releif"\nvalues = ["1500 psi"]\n')
