"""Members of a tooling are written and read without loss."""

from __future__ import annotations

from typing import Any

from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from strapwright.catalog.steels import steels
from strapwright.shop.job import Job
from strapwright.shop.keys import stated_by
from strapwright.shop.members import SEVERAL, SINGLE, Members
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.template import new_job_text
from strapwright.shop_files.writing import write_job

JOB = read_job(new_job_text("inch"))
KINDS: dict[str, st.SearchStrategy[Any]] = {
    "length": st.one_of(
        st.sampled_from([3.175, 12.7, 25.4, 38.1]), st.floats(0.01, 4e4, allow_nan=False)
    ),
    "force": st.floats(10, 1e8, allow_nan=False),
    "pressure": st.floats(0.001, 200, allow_nan=False),
    "strength": st.floats(10, 3000, allow_nan=False),
    "friction": st.floats(0.001, 0.6, allow_nan=False),
    "flag": st.booleans(),
    "count": st.integers(1, 100),
    "steel": st.sampled_from([one.name for one in steels()]),
}


def values(made: type) -> st.SearchStrategy[Any]:
    how: dict[str, st.SearchStrategy[Any]] = {}
    for one in stated_by(made):
        name, key = one.attribute, one.written
        if key.kind == "choice":
            how[name] = st.sampled_from(key.options)
        elif name == "size" and key.kind == "text":
            how[name] = st.sampled_from(["1/4-20", "1/2-13"])
        elif key.kind == "text":
            how[name] = st.sampled_from([None, "2", "8"])
        else:
            how[name] = KINDS[key.kind]
            if key.default is None and not key.needed:
                how[name] = st.one_of(st.none(), how[name])
    return st.builds(made, **how)


members = st.builds(
    Members,
    off_centre=st.one_of(st.just(0.0), KINDS["length"]),
    **{key: st.one_of(st.none(), values(made)) for key, made in SINGLE.items()},
    **{key: st.lists(values(made), max_size=2).map(tuple) for key, made in SEVERAL.items()},
)


def with_members(given_members: Members) -> Job:
    assert JOB.tooling is not None
    return evolve(JOB, tooling=evolve(JOB.tooling, members=given_members))


def sound(made: Members) -> Members:
    """Take out what reading refuses on purpose: no hole in a carrier, a bolt that cannot reach."""
    carriers = made.carriers
    if carriers is not None and carriers.width is not None:
        carriers = evolve(carriers, width=2000.0 + carriers.width, pin=None)
    bolts = tuple(b if b.grip is None else evolve(b, length=2 * b.grip) for b in made.bolt)
    return evolve(made, carriers=carriers, bolt=bolts)


@given(members.map(sound))
def test_members_read_back_as_they_were_and_are_written_the_same_again(made: Members) -> None:
    job = with_members(made)
    text = write_job(job)
    again = read_job(text)
    assert again == job
    assert write_job(again) == text
