"""What the page of bar lots, presses and tooling says, and what its buttons do."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.form import raw_job
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.quantities import Units
from strapwright.service.shop_log.things import (
    Thing,
    lot_made,
    lots_made_one,
    metals_of_lot,
    put_away,
    read_lines,
    split_off,
    things_of_store,
)
from strapwright.shop_files.updating import update_job
from strapwright.store import Conflict, Kind, Missing
from strapwright.wording.shop_log.thing_words import (
    done_words,
    head_words,
    name_words,
    state_words,
    thing_lines,
)

_LONGEST = 200  # characters of one field


@frozen(kw_only=True)
class ThingRow:
    """One lot, press or tooling on the page.

    Attributes
    ----------
    name, shown, state
        Its file or what tells it apart; that with sizes in the units of the shop; and whether it
        is retired or merged, or empty.
    jobs
        Address and name of each job that is made with it; an address is empty where the job is
        gone.
    lines
        Its lines of the log, in words.
    offered
        Which of ``use``, ``merge``, ``split`` and ``retire`` it may be given to.
    """

    name: str
    shown: str
    state: str
    jobs: tuple[tuple[str, str], ...]
    lines: str
    offered: frozenset[str]


@frozen(kw_only=True)
class LotsView:
    """The page.

    Attributes
    ----------
    groups
        Head of each kind, with its things.
    lots
        Names of lots that others can be merged into, each with what is shown for it.
    open_jobs
        Id and name of each job, those last worked on first.
    """

    groups: tuple[tuple[str, tuple[ThingRow, ...]], ...]
    lots: tuple[tuple[str, str], ...]
    open_jobs: tuple[tuple[str, str], ...]


def lots_view(shop: Workshop) -> LotsView:
    """Show every lot, press and tooling with where it is used."""
    things, units = things_of_store(shop.store), _units(shop)
    address = {item.name: f"/jobs/{item.id}/log" for item in shop.store.list("job")}
    kept = {(kind, item.file) for kind in _KINDS for item in shop.store.list(kind)}
    groups = []
    for kind in _KINDS:
        rows = tuple(
            ThingRow(
                name=one.name,
                shown=_shown(one.name, units),
                state=state_words(one.retired, one.merged_into.removesuffix(".toml")),
                jobs=tuple((address.get(name, ""), name) for name in one.jobs),
                lines=thing_lines(one.lines),
                offered=_offered(one, (kind, one.name) in kept),
            )
            for one in things
            if one.kind == kind
        )
        groups.append((head_words(kind), rows))
    return LotsView(
        groups=tuple(groups),
        lots=tuple(
            (one.name, _shown(one.name, units))
            for one in things
            if one.kind == "lot" and not one.merged_into
        ),
        open_jobs=tuple((item.id, item.name) for item in shop.recent()),
    )


def _shown(name: str, units: Units) -> str:
    """Name a thing without the ending of its file."""
    return name_words(name.removesuffix(".toml"), units)


def _units(shop: Workshop) -> Units:
    """Of the job last worked on."""
    for item in shop.recent()[:1]:
        units = raw_job(shop.open(item.id).text).get("units")
        if units == "metric":
            return "metric"
    return "inch"


def do_with_lot(shop: Workshop, typed: Mapping[str, str], who: str) -> str:
    """Do what a button of the page says; return what was done, in a sentence.

    Parameters
    ----------
    shop
        Whose lots they are.
    typed
        Field -> text.
    who
        The browser.

    Raises
    ------
    InputError
        If it cannot be done.
    """
    what = typed.get("do", "")
    lot, name = (typed.get(field, "").strip()[:_LONGEST] for field in ("lot", "name"))
    if what == "new":
        return done_words("new", lot_made(shop.store, name))
    if what == "merge":
        into = typed.get("into", "")[:_LONGEST]
        return done_words("merge", into, lots_made_one(shop.store, lot, into))
    if what == "split":
        lines = read_lines(typed.get("lines", "")[:_LONGEST])
        return done_words("split", split_off(shop.store, lot, lines, name), len(lines))
    if what == "retire":
        put_away(shop.store, lot)
        return done_words("retire", lot)
    if what == "use":
        return done_words("use", _used(shop, lot, typed.get("job", ""), who))
    raise InputError("lot", "nothing was chosen", "press one of the buttons")


def _used(shop: Workshop, lot: str, job: str, who: str) -> str:
    """Let a job be made of a kept lot; return the name of the job."""
    if lot not in {item.file for item in shop.store.list("lot")}:
        raise InputError("lot", "there is no such lot", "choose one of the list")
    try:
        opened = shop.open(job)
    except Missing:
        raise InputError("job", "there is no such job", "choose one of the list") from None
    own = raw_job(opened.text).get("lot")
    if own and not isinstance(own, str):
        raise InputError(
            "lot",
            f"{opened.item.name} has figures of a batch of its own",
            "empty them on its bar page first, under This batch",
        )
    _refuse_other_metal(shop, lot, opened)
    text = update_job(opened.text, {"lot": lot})
    try:
        shop.save(job, text, opened.version, f"made of {lot.removesuffix('.toml')}", who)
    except Conflict:
        raise InputError(
            "job", f"{opened.item.name} was changed elsewhere just now", "choose it once more"
        ) from None
    return opened.item.name


def _refuse_other_metal(shop: Workshop, lot: str, opened: OpenJob) -> None:
    """A lot teaches of its own metal: what another learned from it would be wrong."""
    try:
        metal = shop.read(opened.text).part.material
    except InputError:
        return  # it is planned with nothing before it can be read
    others = [one for one in metals_of_lot(shop.store, lot) if one != metal]
    if others:
        raise InputError(
            "lot",
            f"{opened.item.name} is of {metal}, and this lot is {others[0]} in other jobs",
            "if they are one metal, give them one name on the bar page first",
        )


def _offered(thing: Thing, kept: bool) -> frozenset[str]:
    offered = set()
    if thing.kind == "lot" and kept and not thing.retired and not thing.merged_into:
        offered.add("use")
    if thing.kind == "lot" and not thing.merged_into:
        offered.add("merge")
        if thing.lines:
            offered.add("split")
    if kept and not thing.retired:
        offered.add("retire")
    return frozenset(offered)


_KINDS: tuple[Kind, ...] = ("lot", "press", "tooling")
