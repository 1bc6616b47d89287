"""What a person typed comes back in a message of one line that every terminal and page can show."""

from __future__ import annotations

import io
import zipfile
from datetime import UTC, datetime
from pathlib import Path

import pytest

from strapwright.errors import InputError
from strapwright.pages.sharing.device_passes import Passes
from strapwright.quantities import read_length
from strapwright.store import import_zip, open_store
from strapwright.store.export_index import read_index

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)


@pytest.mark.parametrize("text", ["1,5\n in", "1,5\x00", "1,5 \ud7ff x 1\n"])
def test_a_comma_among_odd_characters_is_told_in_one_line(text: str) -> None:
    with pytest.raises(InputError) as told:
        read_length(text, "part.bar", "inch")
    said = str(told.value)
    assert "there is a comma" in said
    assert "\n" not in said
    assert "\x00" not in said
    assert len(said) < 200


def test_a_message_is_one_line_of_writable_characters() -> None:
    error = InputError("a\nb", "x\x1b[2Jy", "write \ud800 z", value="v\nw")
    assert str(error) == "a\ufffdb 'v\\nw': x\ufffd[2Jy; write \ufffd z."
    str(error).encode()


def test_json_within_json_is_refused_and_lets_nobody_in(tmp_path: Path) -> None:
    deep = "[" * 100_000
    with pytest.raises(InputError, match="it is not JSON"):
        read_index(deep.encode())
    with open_store(tmp_path) as store:
        store.set_setting("sharing passes", deep)
        assert Passes(store).all() == ()


def test_an_archive_whose_head_lies_is_refused(tmp_path: Path) -> None:
    """Every byte of the head turned, one at a time."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as made:
        made.writestr("hook.toml", "format = 1\n")
    whole = packed.getvalue()
    refused = 0
    with open_store(tmp_path) as store:
        for at in range(len(whole)):
            raw = bytearray(whole)
            raw[at] ^= 0x80
            try:
                import_zip(store, bytes(raw), AT, clash="version")
            except InputError as told:
                refused += 1
                assert str(told).endswith(".")  # noqa: PT017  some say nothing of the file
    assert refused > len(whole) // 2
