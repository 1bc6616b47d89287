"""What the pages do with what the shop keeps: the store with a clock, and plans made once."""

from __future__ import annotations

from collections.abc import Callable, Container, Mapping
from datetime import UTC, datetime
from functools import lru_cache, partial

from attrs import frozen

from strapwright.errors import InputError
from strapwright.ordering.time_given import KeepGoing
from strapwright.pages.browsers import Browsers
from strapwright.pages.form import raw_job
from strapwright.pages.long_work.how_far import HowFar
from strapwright.pages.long_work.kept_plans import KeptPlans, Key
from strapwright.pages.long_work.running_searches import Searcher
from strapwright.pages.long_work.searching_on import hasty
from strapwright.pages.long_work.seeking import JobKey, Seeking, SoughtJob
from strapwright.pages.played_bend import Stage, stage_of, whole_stage
from strapwright.pages.sharing.own_view import OwnView, seen
from strapwright.pages.sharing.who_looks import Lookers
from strapwright.pages.shop_work.kept_orders import KeptOrders
from strapwright.pages.shop_work.log_keys import LogKeys
from strapwright.pages.taken_over import latest_shop, remember_source
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.quantities import Units
from strapwright.service.demo import JOBS, NAMES
from strapwright.service.search_clock import first_look
from strapwright.service.shop_log.learned_jobs import learned_from
from strapwright.service.user_folders import default_store, user_data_folder
from strapwright.shop.job import Job
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.updating import tables_text, update_job
from strapwright.store import Draft, Item, Store, Version, new_id

_KEPT_STAGES = 24
MOST_JOBS_KEPT = 2000  # looked through for due dates


@frozen(kw_only=True)
class OpenJob:
    """A job as it is in the store now."""

    item: Item
    text: str

    @property
    def version(self) -> int:
        """Its current version."""
        return self.item.current


class Workshop:
    """Use cases of the pages; safe to use from several threads.

    Parameters
    ----------
    store
        Opened.

    Attributes
    ----------
    searcher
        Long work beside the pages.
    browsers
        What each browser did lately.
    lookers
        Who looks at a job now.
    orders
        The cut plans made last.
    seeking
        What a first look at a job leaves open, searched beside its pages.
    """

    def __init__(self, store: Store) -> None:
        self.store = store
        self._plans = KeptPlans()
        self._log_keys = LogKeys(store)
        self._stages: dict[tuple[Key, int | None, OwnView], tuple[Plan, Stage]] = {}
        self.searcher = Searcher(store)
        self.browsers = Browsers()
        self.lookers = Lookers()
        self.orders = KeptOrders()
        self.seeking = Seeking(store, self._plans)

    def recent(self) -> tuple[Item, ...]:
        """Jobs last worked on."""
        return self.store.recent("job", 30)

    def jobs(self) -> tuple[Item, ...]:
        """All jobs, those last worked on first."""
        return self.store.recent("job", MOST_JOBS_KEPT)

    def open(self, job: str) -> OpenJob:
        """Open a job; ``Missing`` if there is none."""
        return OpenJob(item=self.store.item(job), text=self.store.text_of(job))

    def version(self, job: str, number: int) -> str:
        """Text of one version; ``Missing`` if there is none."""
        return self.store.text_of(job, number)

    def start(
        self, *, name: str, units: Units, bar: str, material: str, take_over: bool = True
    ) -> Item:
        """Begin a part.

        Parameters
        ----------
        name, units, bar, material
            Of the part.
        take_over
            Whether press and tooling are those of the job last worked on.

        Raises
        ------
        InputError
            If the name cannot be kept.
        """
        head = f'format = 1\nunits = "{units}"\n\n[part]\n'
        text = update_job(
            head, {"part.name": name.strip(), "part.bar": bar, "part.material": material}
        )
        found = latest_shop(self.store) if take_over else None
        if found is not None:
            text += "\n" + tables_text(found.tables)
        item = self.store.create("job", name, text, _now(), "begun")
        if found is not None:
            remember_source(self.store, item.id, found.job)
        return item

    def demo(self) -> Item:
        """Return the job of the first-run minute, kept on first use."""
        text = (JOBS / f"{NAMES[0]}.toml").read_text(encoding="utf-8")
        known = self.store.setting("demo")
        for item in self.store.list("job"):
            if item.id == known:
                return item
        item = self.store.create("job", NAMES[0].replace("-", " "), text, _now(), "demonstration")
        self.store.set_setting("demo", item.id)
        return item

    def copy(self, job: str) -> Item:
        """Keep a copy of a job as a job of its own."""
        there = self.open(job)
        name = f"{there.item.name[:70]} copy"
        text = update_job(there.text, {"part.name": name})
        return self.store.create("job", name, text, _now(), f"copy of {there.item.name}")

    def save(
        self, job: str, text: str, base: int, note: str, who: str, *, typed: bool = True
    ) -> Version:
        """Save a job's text as its next version.

        Parameters
        ----------
        job, text, base, note
            Which job, its file, the version that this began from, and why.
        who
            The browser.
        typed
            Whether this is what it typed, so that its draft is done with.

        Raises
        ------
        Conflict
            If it was saved elsewhere in the meantime.
        """
        saved = self.store.save(job, text, base, _now(), note, who=who if typed else None)
        if saved.number > base:
            self.browsers.saved(job, saved.number, who)
        name = raw_job(text).get("part", {}).get("name", "")
        if isinstance(name, str) and name.strip() and name.strip() != self.store.item(job).name:
            self.store.rename(job, name, _now())
        return saved

    def restore(self, job: str, number: int, base: int, who: str) -> Version:
        """Make an old version current again."""
        note = f"back to version {number}"
        restored = self.store.restore_version(job, number, base, _now(), note)
        if restored.number > base:
            self.browsers.saved(job, restored.number, who)
        return restored

    def before(self, job: str) -> int | None:
        """Return the version that undo goes back to, ``None`` where there is none."""
        history = {version.number: version for version in self.store.history(job)}
        number = max(history)
        # An undone state is the one it went back to: the next undo goes on from there.
        while (restored := history[number].restores) is not None:
            number = restored
        return number - 1 if number > 1 else None

    def draft(self, job: str, who: str) -> Draft | None:
        """What a browser typed and did not save."""
        return self.store.drafts.get(job, who)

    def keep_draft(
        self,
        job: str,
        who: str,
        base: int,
        fields: Mapping[str, str],
        own: Container[str],
    ) -> None:
        """Keep what a browser typed on one page beside what it typed on others.

        What comes late, typed over an older version than the draft that is kept, changes nothing.

        Parameters
        ----------
        job, who, base
            Which job, which browser, and the version it typed over.
        fields
            Field name -> text, those that were changed.
        own
            Names of all fields of the page.
        """
        there = self.draft(job, who)
        if there is not None and there.base is not None and there.base > base:
            return
        older = {} if there is None or there.base != base else there.fields
        kept = {name: text for name, text in older.items() if name not in own} | dict(fields)
        if kept:
            self.store.drafts.put(job, who, "job", base, kept, _now())
        elif there is not None:
            self.drop_draft(job, who)

    def drop_draft(self, job: str, who: str) -> None:
        """Forget what a browser typed."""
        self.store.drafts.drop(job, who)

    def read(self, text: str) -> Job:
        """Read a job's text with the shop files that the store has.

        Raises
        ------
        InputError
            If something in it cannot be used.
        """
        return _read(text, tuple(sorted(self.store.beside(text).items())))

    def plan(self, text: str) -> Plan:
        """Plan a job's text, once for all who ask at the same time.

        Raises
        ------
        InputError
            If it cannot be read or planned.
        AbandonedError
            If the one who asks has left.
        """
        beside = self.store.beside(text)

        key = self._key(text, beside)
        return self._plans.get(key, self._making(text, beside, key))

    def order_plan(self, text: str) -> Plan:
        """Plan a job's text for the order of its bends: not again with every line of the log.

        Raises
        ------
        InputError
            If it cannot be read or planned.
        AbandonedError
            If the one who asks has left.
        """
        beside = self.store.beside(text)
        whole = self._key(text, beside)
        key = whole
        if not self._plans.is_improved(whole):
            # Again once a search has found another order: every page of the job shows one.
            found = self.seeking.found_before(whole)
            order = "" if found is None else ",".join(map(str, found.bends))
            key = text, (*sorted(beside.items()), ("order", order))
        return self._plans.get(key, self._making(text, beside, whole))

    def _learned(self, text: str, job: Job) -> LearnedJob | None:
        """What the log says of a job, ``None`` where it says nothing."""
        known = learned_from(self.store, text, job)
        return known if known.says_anything else None

    def _making(
        self, text: str, beside: Mapping[str, str], key: Key
    ) -> Callable[[KeepGoing], Plan]:
        """Return what makes a plan at a first look, with the order that was found for its key."""

        def make(somebody_waits: KeepGoing) -> Plan:
            in_time = first_look()
            job = read_job(text, beside=beside)
            asked = partial(plan, job, learned=self._learned(text, job))
            made = asked(
                keep_going=lambda: somebody_waits() and in_time(),
                found_before=self.seeking.found_before(key),
            )
            # Nothing is refused before it was looked at for long enough.
            return asked(search=False, keep_going=somebody_waits) if hasty(made) else made

        return make

    def of(self, opened: OpenJob) -> JobKey:
        """Return a job with what its plan is made from."""
        key = self._key(opened.text, self.store.beside(opened.text))
        return JobKey(job=opened.item.id, key=key)

    def _read_of(self, opened: OpenJob) -> Callable[[], SoughtJob]:
        def read() -> SoughtJob:
            job = self.read(opened.text)
            return SoughtJob(job=job, learned=self._learned(opened.text, job))

        return read

    def go_on(self, opened: OpenJob) -> HowFar | None:
        """Search on, beside the pages, for what a first look left open; return how far it is."""
        return self.seeking.go_on(self.of(opened), self._read_of(opened))

    def search_on(self, opened: OpenJob) -> None:
        """Search for the order of a job for as long as a person asks for."""
        self.seeking.longer(self.of(opened), self._read_of(opened))

    def look(self, opened: OpenJob) -> HowFar | None:
        """Look for what would make a refused part; return how far that is, once it takes long."""
        return self.seeking.look(self.of(opened), self._read_of(opened))

    def settled(self, opened: OpenJob) -> None:
        """Wait for the search that a first look left, so that paper has its order."""
        self.go_on(opened)
        self.seeking.wait(self.of(opened))

    def stage(self, text: str, bend: int | None, view: OwnView) -> Stage:
        """Return one bend of a job's text to be played, or all of them; made once for each view.

        It is made again where a search beside the pages has found another plan since.

        Raises
        ------
        InputError
            If it cannot be read or planned, or has no such bend.
        """
        plan = self.plan(text)
        key = (self._key(text, self.store.beside(text)), bend, view)
        kept = self._stages.get(key)
        if kept is not None and kept[0] is plan:
            return kept[1]
        made = seen(plan, view)
        step = next((one for one in made.steps if bend in (None, one.bend)), None)
        if step is None:
            raise InputError("bend", "there is no such bend", "see the order of the bends")
        found = whole_stage(made) if bend is None else stage_of(made, step)
        self._stages[key] = plan, found
        while len(self._stages) > _KEPT_STAGES:
            self._stages.pop(next(iter(self._stages)), None)
        return found

    def _key(self, text: str, beside: Mapping[str, str]) -> Key:
        """What a plan is made from: the shop files that a job names, and the log of its things."""
        return text, (*sorted(beside.items()), ("", self._log_keys.key(text, beside)))


@lru_cache(maxsize=32)
def _read(text: str, beside: tuple[tuple[str, str], ...]) -> Job:
    """Read a job once for the several answers to one change; what cannot be read is not kept."""
    return read_job(text, beside=dict(beside))


def _now() -> datetime:
    return datetime.now(UTC)


__all__ = ["OpenJob", "Workshop", "default_store", "new_id", "user_data_folder"]
