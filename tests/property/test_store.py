"""Whatever a text holds, it comes out of the store, of an export and of a backup byte for byte."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from strapwright.store import (
    KINDS,
    Store,
    backup_store,
    export_zip,
    import_zip,
    open_store,
    restore_store,
)
from strapwright.store.item_names import file_key, file_name

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
JOB = """format = 1
[part]
name = "fender hanger"
bar = "flat 6 x 40 mm"
material = "S235JR"
shape = ["70 mm", "up 90", "120 mm"]
"""

# All that UTF-8 can hold but NUL: odd line ends, byte-order marks, letters made of several marks.
anything = st.text(st.characters(codec="utf-8", exclude_characters="\0"), max_size=60)
commented = anything.map(lambda words: JOB + "".join(f"# {line}\n" for line in words.split("\n")))
texts = anything | commented
names = st.text(
    st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=80
)
items = st.lists(st.tuples(st.sampled_from(KINDS), names, texts, st.booleans()), max_size=6)


@contextmanager
def fresh() -> Iterator[tuple[Store, Path]]:
    with tempfile.TemporaryDirectory() as place, open_store(Path(place) / "store") as store:
        yield store, Path(place)


def kept(store: Store) -> set[tuple[object, ...]]:
    found = store.list() + store.list(archived=True)
    return {
        (
            *(item.file, item.kind, item.name, item.archived),
            *(item.material, item.bar, item.quantity, item.sound),
            store.text_of(item.id).encode(),
        )
        for item in found
    }


@given(items)
@settings(deadline=None, max_examples=25)
def test_export_and_import_lose_nothing(
    given_items: list[tuple[str, str, str, bool]],
) -> None:
    with fresh() as (store, place), open_store(place / "other") as other:
        for kind, name, text, away in given_items:
            item = store.create(kind, name, text, AT)  # type: ignore[arg-type]
            assert store.text_of(item.id) == text
            if away:
                store.archive(item.id)
        packed = export_zip(store)
        import_zip(other, packed, AT)
        assert kept(other) == kept(store)
        assert export_zip(other) == packed


@given(st.lists(texts, min_size=1, max_size=8))
@settings(deadline=None, max_examples=25)
def test_every_version_is_in_the_backup(versions: list[str]) -> None:
    with fresh() as (store, place):
        item = store.create("job", "hook", versions[0], AT)
        wanted = versions[:1]
        for text in versions[1:]:
            number = store.save(item.id, text, len(wanted), AT).number
            wanted += [text] if text != wanted[-1] else []
            assert number == len(wanted)
        backup_store(store.folder, place / "copy.db")
        restore_store(place / "copy.db", place / "back", AT)
        with open_store(place / "back") as back:
            assert [back.text_of(item.id, number + 1) for number in range(len(wanted))] == wanted
            assert back.history(item.id) == store.history(item.id)


@given(st.text(st.characters(), max_size=300), st.lists(names, max_size=5))
def test_a_file_name_is_plain_and_stays_itself(name: str, others: list[str]) -> None:
    taken = {file_key(file_name(other)) for other in others}
    file = file_name(name, taken)
    assert file_key(file) not in taken
    assert file_name(file) == file
    assert not set(file) & set('/\\:*?"<>|\0\n')
    assert not file.startswith((".", " ", "-"))
    assert len(file.encode()) <= 255  # what most disks take
