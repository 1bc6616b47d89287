"""What the templates of a job's pages are given."""

from __future__ import annotations

from typing import Any

from strapwright.errors import InputError
from strapwright.pages import plan_page, refused_page
from strapwright.pages.bench.work_lines import saw_lines
from strapwright.pages.edited_job import Desk, last_sound, plan_or_said
from strapwright.pages.fields import part_picture
from strapwright.pages.fields.form_fields import Page
from strapwright.pages.fields.part_fields import shape_rows
from strapwright.pages.fields.tooling_picture import tooling_picture
from strapwright.pages.form import raw_job
from strapwright.pages.page_statements import Said
from strapwright.pages.sharing.own_view import AS_EACH_JOB, OwnView, seen, shown_words
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.planning.plan_values import Plan
from strapwright.web.rendering import piece
from strapwright.web.strength_view import strength_pieces

PAGES: tuple[tuple[str, str], ...] = (
    ("part", "Part"),
    ("bar", "Bar"),
    ("press", "Press"),
    ("tooling", "Tooling"),
    ("bends", "Bends"),
    ("print", "Print"),
    ("log", "Log"),
)


def head(
    shop: Workshop,
    opened: OpenJob,
    current: str,
    made: Plan | None,
    view: OwnView = AS_EACH_JOB,
) -> dict[str, Any]:
    """Head of a job's page: its tag, the way through the pages, undo.

    A page that shows its figures as a device chose says so, and gives its view.
    """
    raw_missing = {
        "press": made is not None and made.job.press is None,
        "tooling": made is not None and made.job.tooling is None,
    }
    return {
        "job": opened.item,
        "root": f"/jobs/{opened.item.id}",
        "tag": tag_of(made),
        "banner": refused_page.banner(None if made is None else seen(made, view)),
        "shown_in": "" if made is None else shown_words(made.job, view),
        "seeking": _seeking(shop, opened),
        "ordering": "" if shop.go_on(opened) is None else "searching",
        "searched": shop.seeking.ends(opened.item.id),
        "pages": [(name, word, raw_missing.get(name, False)) for name, word in PAGES],
        "current": current,
        "here_word": dict(PAGES).get(current, "History"),
        "undo": shop.before(opened.item.id),
        "readings": shop.store.log.states_kept(opened.item.id),
        "units": units_of(opened.text),
    }


def _seeking(shop: Workshop, opened: OpenJob) -> str:
    """Say in the head how far a search for tooling is; empty where none runs."""
    search = shop.store.searches.latest(opened.item.id)
    if search is None or search.state != "running":
        return ""
    return f"searching, {shop.searcher.progress(search.id).count}"


def units_of(text: str) -> str:
    """Return the unit system of numbers without a unit, empty where the job states none."""
    units = raw_job(text).get("units", "")
    return units if units in ("inch", "metric") else ""


def tag_of(made: Plan | None) -> str:
    """Return the mark that the paper of this job carries too, empty where it cannot be planned."""
    if made is None:
        return ""
    from strapwright.sheets.job_code import job_digest  # noqa: PLC0415  loads the square code

    return job_digest(made.job)


def places(desk: Desk) -> dict[str, str]:
    """Return the field of each leg and bend."""
    return {
        f"{row.kind} {row.number}": f"part.shape[{row.at}]"
        for row in shape_rows(list(desk.form.shape))
    }


def drawing(
    shop: Workshop,
    desk: Desk,
    size: part_picture.Size,
    *,
    hurried: bool = False,
    near: float | None = None,
) -> tuple[part_picture.PartPicture | None, str]:
    """Draw the part as typed, or as it was last sound; and say which."""
    if desk.trouble is None:
        made = part_picture.sketch(shop.read(desk.text))
        if made is not None:
            picture = part_picture.part_picture(
                made, size, places(desk), hurried=hurried, near=near
            )
            return picture, "fresh"
    sound = last_sound(shop, desk.opened)
    try:
        made = None if sound is None else part_picture.sketch(shop.read(sound))
    except InputError:  # a shop file it names was changed since
        made = None
    if made is not None:
        return part_picture.part_picture(made, size, places(desk), hurried=hurried), "wrong"
    return None, "wrong"


def results(shop: Workshop, desk: Desk) -> tuple[Plan | None, dict[str, Any]]:
    """Numbers and findings for what was typed."""
    on_part = desk.form.page == "part"
    made: Plan | None = None
    refusal: Said | None = None
    if desk.trouble is None:
        made, refusal = plan_or_said(shop, desk.text)
    return made, {
        "blank": None if made is None or not on_part else plan_page.blank_number(made),
        "guess": None if made is None or not on_part else plan_page.provisional_blank(made),
        "marks": () if made is None else plan_page.marks(made),
        "legs": None if made is None else plan_page.legs(made),
        "saws": () if made is None or not on_part else saw_lines(made),
        "stack": () if made is None or not on_part else plan_page.stack_rows(made),
        "loads": () if made is None or on_part else plan_page.loads(made),
        "bench": _bench(shop, desk, made) if desk.form.page == "tooling" else None,
        "printable": made is not None and bool(made.steps) and refused_page.can_be_played(made),
        "refusal": refusal,
        "findings": () if made is None else plan_page.findings(made),
        "root": f"/jobs/{desk.opened.item.id}",
    }


def _bench(shop: Workshop, desk: Desk, made: Plan | None) -> tuple[str, str, str] | None:
    """Draw the tooling in its largest bend, or by its fields alone where nothing is planned."""
    planned = None if made is None else plan_page.bench_picture(made)
    if planned is not None:
        return *planned, ""
    try:
        thickness = shop.read(desk.opened.text).part.bar.thickness
    except InputError:
        thickness = 0.0
    return tooling_picture(desk.form, thickness)


def pieces(shop: Workshop, desk: Desk) -> dict[str, str]:
    """Render what follows the drawing: numbers, findings, and whether it was saved elsewhere."""
    if desk.form.page == "strength":
        return strength_pieces(shop, desk)
    made, values = results(shop, desk)
    return {
        "numbers": piece("numbers.html", **values),
        "findings": piece("findings.html", **values),
        "tag": tag_of(made),
        "banner": piece("banner.html", banner=refused_page.banner(made), root=values["root"]),
        "elsewhere": piece("elsewhere.html", desk=desk),
    }


def next_page(page: Page, text: str) -> str:
    """Return the page that comes next on the way to paper."""
    if page == "bar":
        return "part"
    stated = raw_job(text)
    if page == "part" and "press" not in stated:
        return "press"
    return "tooling" if page != "tooling" and "tooling" not in stated else "bends"
