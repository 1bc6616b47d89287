"""What a person types at the press is read once, by the units it was typed in."""

from __future__ import annotations

import math
from datetime import UTC, datetime
from pathlib import Path

import pytest
from test_shop_log import JOB, PSI

from strapwright.errors import InputError
from strapwright.service.shop_log.log_commands import correct_line
from strapwright.service.shop_log.logged_push import JobText, log_push
from strapwright.store import LogEntry, open_store

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
TYPED = {"travel": "0.43", "angle": "44", "gauge": "640", "legs": "5, 4, 3", "note": "warm"}


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    """Return a job file with one line of its log in the store beside it."""
    path = tmp_path / "cleat strap.toml"
    path.write_text(JOB, encoding="utf-8")
    with open_store(tmp_path / "store") as store:
        item = store.create("job", "cleat strap", JOB, AT)
        log_push(store, JobText(item=item.id, version=1, text=JOB), TYPED, bend=2, at=AT)
    return path


def correct(path: Path, **typed: str) -> LogEntry:
    return correct_line(path, path.parent / "store", 1, typed, counted=None, why="misread")[0]


def test_a_correction_after_the_units_changed_reads_the_new_texts_alone(kept: Path) -> None:
    kept.write_text(
        JOB.replace('units = "inch"', 'units = "metric"')
        .replace('"flat 1/4 x 2"', '"flat 6.35 x 50.8"')
        .replace('["5", "up 90", "4", "down 45", "3"]', '["127", "up 90", "102", "down 45", "76"]')
        .replace('"3-1/2"', '"89"')
        .replace('"8"', '"200"')
        .replace('shaft = "1"', 'shaft = "25.4"')
        .replace('"3/8"', '"9.5"')
        .replace('"2-1/2"', '"63.5"'),
        encoding="utf-8",
    )
    now = correct(kept, angle="44.5")
    assert now.typed == {**TYPED, "angle": "44.5"}
    assert now.figures["free"] == pytest.approx(math.radians(44.5))
    assert now.figures["travel"] == pytest.approx(0.43 * 25.4)
    assert now.figures["gauge"] == pytest.approx(640 * PSI)
    assert now.figures["leg 3"] == pytest.approx(3 * 25.4)
    assert correct(kept, travel="11").figures["travel"] == pytest.approx(11.0)


def test_an_emptied_text_takes_its_figures_out_and_the_travel_stays(kept: Path) -> None:
    now = correct(kept, gauge="", legs=" ", note="")
    assert set(now.typed) == {"travel", "angle"}
    assert set(now.figures) == {"travel", "free", "blank"}
    with pytest.raises(InputError, match="a line needs its travel"):
        correct(kept, travel="")
