"""The log with other bars, other readings and other shops than the plain one."""

# ruff: noqa: F811  a fixture of another module is named as it names it

from __future__ import annotations

import csv
import io
import math
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from attrs import evolve
from test_shop_log import AT, PSI, keep, store  # noqa: F401  store is a fixture
from test_shop_log import JOB as WEAK_PRESS

from strapwright.bending import state_at_travel
from strapwright.bending.off_middle.two_legs import uneven_at_travel
from strapwright.errors import InputError
from strapwright.learning.learn import learn
from strapwright.learning.log_readings import Places
from strapwright.pages.workshop import Workshop
from strapwright.planning.from_the_log.bend_now import bend_now
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.from_the_log.pushed_bend import pushed_bend
from strapwright.service.shop_log.batch import batch_of
from strapwright.service.shop_log.corrected_line import change_line
from strapwright.service.shop_log.learned_jobs import learned_from
from strapwright.service.shop_log.log_from_table import import_table
from strapwright.service.shop_log.log_text import log_to_csv
from strapwright.service.shop_log.logged_push import JobText, Logged, log_push
from strapwright.service.shop_log.things import lots_made_one, put_away, split_off
from strapwright.shop_files.reading_job import read_job
from strapwright.store import Store
from strapwright.wording.reader import at_command
from strapwright.wording.telling import tell_all

JOB = WEAK_PRESS.replace("1500 psi", "2900 psi")
PLACES = Places(lot="lot", press="press", tooling="tooling", mounting="1", part="1")
FINISH = '[[part.finish]]\nbend = 1\nat = 70\nby = "vise"\n[press]'
KINDS = {
    "flat": JOB,
    "round rod": JOB.replace("flat 1/4 x 2", "round 3/8"),
    "square bar": JOB.replace("flat 1/4 x 2", "square 3/8"),
    "nose off the middle": JOB.replace('shaft = "1" }', 'shaft = "1", offset = "1/32" }'),
    "finished in the vise": JOB.replace("[press]", FINISH),
    "soft metal": JOB.replace("A36 hot rolled", "6061-T6"),
}


def log(store: Store, opened: JobText, bend: int, part: int, **typed: str) -> Logged:
    return log_push(store, opened, typed, bend=bend, at=AT, part=part)


def known_of(store: Store, opened: JobText) -> LearnedJob:
    return learned_from(store, opened.text, read_job(opened.text, beside=store.beside(opened.text)))


def shown(text: str, bend: int) -> tuple[float, dict[str, str]]:
    """Travel [mm] and readings of a bar 12 % stronger than stated, contact found 0.15 mm late."""
    pushed = pushed_bend(read_job(text), bend)
    flow = pushed.setup.flow
    bar = evolve(pushed.setup, flow=evolve(flow, strength=1.12 * flow.strength))
    stated = LearnedJob(learned=learn([]), places=PLACES)
    travel = bend_now(read_job(text), stated, bend).travel
    tooling = read_job(text).tooling
    assert tooling is not None
    # With the nose off the middle each leg is followed for itself.
    off = tooling.nose.offset or 0.0
    even, uneven = state_at_travel(bar, travel + 0.15), uneven_at_travel(bar, off, travel + 0.15)
    assert uneven is not None
    free, force = (even.free_angle, even.force) if not off else (uneven.free_angle, uneven.force)
    gauge = force / (math.pi / 4 * (3.5 * 25.4) ** 2 * 0.95) + 60 * PSI
    return travel, {
        "travel": f"{travel / 25.4:.4f}",
        "angle": f"{math.degrees(free):.2f}",
        "gauge": f"{gauge / PSI:.0f}",
    }


@pytest.mark.parametrize(
    ("kind", "read"),
    [
        *((kind, ("angle", "gauge")) for kind in KINDS),
        ("flat", ("angle",)),
        ("flat", ("gauge",)),
        ("round rod", ("gauge",)),
    ],
)
def test_one_reading_of_any_bar_brings_the_next_nearer(
    kind: str, read: tuple[str, ...], store: Store
) -> None:
    text = KINDS[kind]
    opened, job = keep(store, text), read_job(text)
    travel, typed = shown(text, 1)
    before = known_of(store, opened).foretold(job, 1, travel)
    kept = log(store, opened, 1, 1, **{name: typed[name] for name in ("travel", *read)})
    assert kept.entry is not None, kept.asked
    after = known_of(store, opened).foretold(job, 1, travel)
    assert before is not None
    assert after is not None
    assert before.gauge is not None
    assert after.gauge is not None
    angle, gauge = math.radians(float(typed["angle"])), float(typed["gauge"]) * PSI
    if "angle" in read:
        assert abs(after.free.value - angle) < 0.4 * abs(before.free.value - angle)
    if "gauge" in read:
        assert abs(after.gauge.value - gauge) < 0.5 * abs(before.gauge.value - gauge)
    for now, then in ((after.free, before.free), (after.gauge, before.gauge)):
        # A pressure says next to nothing of an angle.
        assert now.band.high - now.band.low < 1.01 * (then.band.high - then.band.low)


def test_two_bends_of_one_part_in_mixed_units_are_what_they_are_in_one(store: Store) -> None:
    plain, mixed = keep(store, JOB), keep(store, JOB, "again")
    one = log(store, plain, 2, 1, travel="0.43", angle="44.0", gauge="650")
    two = log(store, mixed, 2, 1, travel="10.922 mm", angle="44 deg", gauge="44.816 bar")
    assert one.entry is not None
    assert two.entry is not None
    for figure, value in one.entry.figures.items():
        assert two.entry.figures[figure] == pytest.approx(value, rel=1e-4)


def test_an_angle_measured_at_both_edges_counts_for_more_than_one(store: Store) -> None:
    travel, typed = shown(JOB, 1)
    job = read_job(JOB)
    widths = []
    for again in ({}, {"again": typed["angle"]}):
        opened = keep(store, JOB, f"strap {len(again)}")
        log(store, opened, 1, 1, **typed, **again)
        found = known_of(store, opened).foretold(job, 1, travel)
        assert found is not None
        widths.append(found.free.band.high - found.free.band.low)
        store.log.change(store.log.lines()[-1].line, "", AT, counted=False)
    assert widths[1] < 0.9 * widths[0]


def test_the_angle_is_the_mean_of_both_edges_and_a_correction_of_one_keeps_the_other(
    store: Store,
) -> None:
    opened = keep(store, JOB)
    kept = log(store, opened, 2, 1, angle="44.6", again="45.2")
    assert kept.free == pytest.approx(math.radians(44.9))
    (piece,) = batch_of(store, opened, read_job(JOB), 2).pieces
    assert piece.free == pytest.approx(math.radians(44.9))
    change_line(store, opened, 1, {"again": "45.4"}, counted=None, why="")
    (piece,) = batch_of(store, opened, read_job(JOB), 2).pieces
    assert piece.free == pytest.approx(math.radians(45.0))
    change_line(store, opened, 1, {"angle": ""}, counted=None, why="")
    (piece,) = batch_of(store, opened, read_job(JOB), 2).pieces
    assert piece.free == pytest.approx(math.radians(45.4))


@pytest.mark.parametrize(("again", "asked"), [("45.9", False), ("46.3", True), ("43.7", True)])
def test_a_twisted_part_is_asked_about(again: str, asked: bool, store: Store) -> None:
    # 3.29 deviations of a difference of two readings of 0.004 rad: 1.066 deg.
    found = log(store, keep(store, JOB), 2, 1, angle="45.0", again=again)
    codes = [one.code for one in found.asked]
    assert codes == (["reading-looks-apart"] if asked else [])
    if asked:
        (told,) = tell_all(found.asked, at_command(found.job))
        assert "the part is twisted" in told.text


def test_the_tables_of_two_jobs_have_the_same_columns_and_read_back(store: Store) -> None:
    plain, full = keep(store, JOB), keep(store, JOB, "full")
    log(store, plain, 2, 1, gauge="650")
    log(store, plain, 2, 2, angle="45")
    log(
        store,
        full,
        2,
        1,
        minutes="0.8",
        legs="5.02, , 3.01",
        angle="44.9",
        again="45.1",
        radius="1/2",
    )
    few, many = (log_to_csv(store.log.lines(one.item)) for one in (plain, full))
    first, second = (next(csv.reader(io.StringIO(table))) for table in (few, many))
    assert second[: len(first)] == first
    assert second[len(first) :] == ["leg_1_mm", "leg_3_mm"]
    assert len(set(second)) == len(second)
    for table, opened in ((few, plain), (many, full)):
        for row, entry in zip(
            csv.DictReader(io.StringIO(table)), store.log.lines(opened.item), strict=True
        ):
            assert int(row["line"]) == entry.line
            back = {
                "travel": row["travel_mm"],
                "free": row["free_deg"],
                "again": row["again_deg"],
                "gauge": row["gauge_MPa"],
                "radius": row["radius_mm"],
                "blank": row["blank_mm"],
                "minutes": row["handling_min"],
                "leg 1": row.get("leg_1_mm", ""),
                "leg 3": row.get("leg_3_mm", ""),
            }
            size = {"free": math.radians(1.0), "again": math.radians(1.0)}
            read = {name: float(text) * size.get(name, 1.0) for name, text in back.items() if text}
            assert read == pytest.approx(dict(entry.figures), rel=1e-12)


def test_a_lot_that_was_put_away_merged_and_split_is_learned_from_where_its_lines_went(
    store: Store,
) -> None:
    for name in ("rack 1", "rack 2"):
        store.create("lot", name, "format = 1\n[lot]\n", AT)
    texts = [
        JOB.replace('units = "inch"', f'units = "inch"\nlot = "rack {n}.toml"') for n in (1, 2)
    ]
    # Another press and tooling, so that the bar alone is shared.
    texts[1] = texts[1].replace("3-1/2", "4").replace('opening = "2-1/2"', 'opening = "3"')
    one, two = keep(store, texts[0], "one"), keep(store, texts[1], "two")
    _, typed = shown(JOB, 1)
    log(store, one, 1, 1, **typed)
    log(store, one, 1, 2, **typed)
    assert known_of(store, two).learned.entries == ()
    put_away(store, "rack 1.toml")
    assert known_of(store, one).learned.entries == ("1", "2")
    lots_made_one(store, "rack 1.toml", "rack 2.toml")
    assert known_of(store, two).learned.entries == ("1", "2")
    split_off(store, "rack 2.toml", [2], "odd bar")
    assert known_of(store, two).learned.entries == ("1",)
    # The other line is of its press and tooling all the same.
    assert known_of(store, one).learned.entries == ("1", "2")
    change_line(store, one, 1, {}, counted=False, why="cold bar")
    assert known_of(store, two).learned.entries == ()


def test_a_logged_line_makes_new_plans_of_the_jobs_that_share_something_with_it(
    store: Store,
) -> None:
    """Each of lot, press and tooling alone is enough; with none of them a plan stays."""
    lots = {name: store.create("lot", name, "format = 1\n[lot]\n", AT).file for name in "AB"}

    def text(name: str, lot: str, bore: str, opening: str) -> str:
        head = JOB.replace('units = "inch"', f'units = "inch"\nlot = "{lots[lot]}"')
        own = head.replace("cleat strap", name).replace("3-1/2", bore)
        return own.replace('opening = "2-1/2"', f'opening = "{opening}"')

    shop = Workshop(store)
    texts = {
        "logged": text("logged", "A", "3-1/2", "2-1/2"),
        "same lot": text("same lot", "A", "4", "3"),
        "same press": text("same press", "B", "3-1/2", "3"),
        "same tooling": text("same tooling", "B", "4", "2-1/2"),
        "nothing": text("nothing", "B", "4", "3"),
    }
    plans = {name: shop.plan(one) for name, one in texts.items()}
    assert all(shop.plan(texts[name]) is made for name, made in plans.items())
    _, typed = shown(JOB, 1)
    logged = keep(store, texts["logged"], "logged")
    log(store, logged, 1, 1, **typed)
    stays = {name for name, made in plans.items() if shop.plan(texts[name]) is made}
    assert stays == {"nothing"}
    # Where its lot is found to be the same bar, what was learned of it holds for that job too.
    before = shop.plan(texts["nothing"])
    lots_made_one(store, lots["B"], lots["A"])
    after = shop.plan(texts["nothing"])
    assert after is not before
    assert any(one.code == "learned-from-log" for one in after.findings)
    # A correction, and a line that is left out, make it new once more.
    change_line(store, logged, 1, {}, counted=False, why="")
    assert shop.plan(texts["nothing"]) is not after


def test_a_written_log_is_taken_into_another_store_as_it_was(store: Store, tmp_path: Path) -> None:
    path = tmp_path / "cleat strap.toml"
    path.write_text(JOB, encoding="utf-8")
    opened = keep(store, JOB)
    _, typed = shown(JOB, 1)
    log(store, opened, 1, 1, **typed, note="=warm, of the first bar", legs="5.02; ; 3.01")
    log(store, opened, 1, 2, **{**typed, "again": typed["angle"], "minutes": "0.8"})
    log(store, opened, 2, 1, gauge="650")
    change_line(store, opened, 3, {}, counted=False, why="needle stuck")
    table = tmp_path / "log.csv"
    table.write_text(log_to_csv(store.log.lines()), encoding="utf-8")
    found = import_table(path, tmp_path / "other", table, sure=False)
    assert found.asked == ()
    for there, here in zip(found.kept, store.log.lines(), strict=True):
        assert there.figures == pytest.approx(dict(here.figures), rel=1e-9)
        for name in ("part", "bend", "counted", "why", "lot", "press", "tooling", "mounting"):
            assert getattr(there, name) == getattr(here, name)
        assert there.typed.get("note") == here.typed.get("note")
    # Once more: a row that is in the log already is asked about, one left out is taken for another.
    again = import_table(path, tmp_path / "other", table, sure=False)
    assert [row for row, _ in again.asked] == [2, 3]


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ("part,angle\n1,45\n", "no column bend"),
        ("bend,angle,girth\n2,45,3\n", "girth"),
        ("bend,angle\n2,steep\n", "row 2, angle"),
        ("bend,angle\n2,45\n7,45\n", "row 3: there is no bend 7"),
        ("bend,angle\n2,\n", "nothing was read"),
        ("bend,angle\n", "no row"),
        ("bend,angle\n2,45,9\n", "more cells"),
        ("bend,bend\n2,2\n", "one name"),
        ("bend,angle,leg_0_mm\n2,45,5\n", "leg_0_mm"),
        (f"bend,angle,note\n2,45,\n2,45,{'x' * 501}\n", "row 3, note: it has more than 500"),
        (f"bend,angle,counted,why\n2,45,,\n2,45,no,{'x' * 501}\n", "row 3, note"),
        ("bend,angle\n-2,45\n", "row 2, bend"),
        ('bend;angle\n2;"44,5"\n', "decimal comma|comma"),
        ("bend,angle,kept_at\n2,45,\n2,45,3/5/2031\n", "row 3, kept_at '3/5/2031'.*no date"),
        ("bend,angle,kept_at\n2,45,0001-01-01T00:00:00+14:00\n", "row 2, kept_at.*no date"),
        ("bend,angle,counted\n2,45,nay\n", "row 2, counted 'nay'.*neither yes nor no"),
    ],
)
def test_a_table_with_a_slip_is_refused_whole(table: str, says: str, tmp_path: Path) -> None:
    path, file = tmp_path / "cleat strap.toml", tmp_path / "t.csv"
    path.write_text(JOB, encoding="utf-8")
    file.write_text(table, encoding="utf-8")
    with pytest.raises(InputError, match=says):
        import_table(path, tmp_path / "s", file, sure=False)
    assert not (tmp_path / "s").exists()


def test_tooling_that_was_put_in_again_counts_from_the_first_row_that_is_kept(
    tmp_path: Path,
) -> None:
    path, file = tmp_path / "cleat strap.toml", tmp_path / "t.csv"
    path.write_text(JOB, encoding="utf-8")
    rows = ("44.8,1", "135,2", "45.1,2", "44.9,", "45.2,2")
    file.write_text("\n".join(["bend,angle,mounting", *(f"2,{row}" for row in rows)]), "utf-8")
    found = import_table(path, tmp_path / "s", file, sure=False)
    assert [row for row, _ in found.asked] == [3]
    assert [entry.mounting for entry in found.kept] == [1, 2, 2, 2]


def job_and_table(folder: Path, head: str, rows: Sequence[str]) -> tuple[Path, Path]:
    path, file = folder / "cleat strap.toml", folder / "t.csv"
    path.write_text(JOB, encoding="utf-8")
    file.write_text("\n".join([head, *rows]), encoding="utf-8")
    return path, file


def test_a_moment_is_kept_as_written_and_an_empty_one_is_now(tmp_path: Path) -> None:
    rows = ("2,44.8,2031-05-03T08:30:00+02:00", "2,44.9,2031-05-04", "2,45.0,")
    path, file = job_and_table(tmp_path, "bend,angle,kept_at", rows)
    first, second, last = import_table(path, tmp_path / "s", file, sure=False).kept
    assert first.kept_at == datetime(2031, 5, 3, 6, 30, tzinfo=UTC)
    assert second.kept_at == datetime(2031, 5, 4, tzinfo=UTC)
    assert abs(last.kept_at - datetime.now(UTC)) < timedelta(minutes=5)


def test_a_row_of_another_lot_press_or_tooling_is_asked_about(tmp_path: Path) -> None:
    rows = ("2,44.8,,", "2,44.9,rack 2.toml,", "2,45.0,,bore 101.60 mm", "2,45.1,,")
    path, file = job_and_table(tmp_path, "bend,angle,lot,press", rows)
    found = import_table(path, tmp_path / "s", file, sure=False)
    assert [(row, len(questions)) for row, questions in found.asked] == [(3, 1), (4, 1)]
    lot, press = (questions[0] for _, questions in found.asked)
    assert "of the lot rack 2, and the lot of this job is bar of cleat strap" in lot
    assert "of the press bore 4 in, and the press of this job is bore 3-1/2 in" in press
    assert [entry.figures["free"] for entry in found.kept] == pytest.approx(
        [math.radians(44.8), math.radians(45.1)]
    )
    assert import_table(path, tmp_path / "t", file, sure=True).asked == ()


def test_a_row_that_was_left_out_without_a_reading_stops_no_table(tmp_path: Path) -> None:
    rows = ("2,44.8,0.43,yes,", "2,,0.5,no,bar slipped", "2,135,0.43,no,read inside", "2,45,0.43,,")
    path, file = job_and_table(tmp_path, "bend,angle,travel,counted,why", rows)
    found = import_table(path, tmp_path / "s", file, sure=False)
    assert [(entry.counted, entry.why, entry.revision) for entry in found.kept] == [
        (True, "", 1),
        (False, "bar slipped", 1),
        (False, "read inside", 1),
        (True, "", 1),
    ]


def test_a_typed_table_is_held_to_what_is_expected_row_by_row(tmp_path: Path) -> None:
    path, file = tmp_path / "cleat strap.toml", tmp_path / "t.csv"
    path.write_text(JOB, encoding="utf-8")
    file.write_text("bend;angle;gauge\n2;44.8;650\n2;135;650\n2;45.1;44.8 bar\n", encoding="utf-8")
    found = import_table(path, tmp_path / "s", file, sure=False)
    assert [entry.part for entry in found.kept] == [1, 2]
    ((row, (question, *_)),) = found.asked
    assert row == 3
    assert "angle between the legs" in question
