"""Plan a job from its file, and turn a plan into the files a person keeps."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Literal

from attrs import evolve

from strapwright.motion.refused_bends import has_no_stop, is_refused
from strapwright.planning.order_findings import undecided
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.remedies.carrying import with_remedies
from strapwright.remedies.search_figures import find_remedies
from strapwright.report.json_text import to_text
from strapwright.report.plan_json import plan_to_data
from strapwright.service.file_access import write_files
from strapwright.service.load_job import load_job
from strapwright.service.search_clock import REMEDY_SECONDS, within

if TYPE_CHECKING:
    from strapwright.scene.primitives import Scene

__all__ = ["POSES", "is_refused", "plan_files", "plan_job", "write_plan"]

POSES: tuple[Literal["rest"], Literal["stroke"], Literal["released"]] = (
    "rest",
    "stroke",
    "released",
)


def plan_job(path: Path) -> Plan:
    """Plan the job in a file; where it is refused, look for what would make it.

    Parameters
    ----------
    path
        Of the job file.

    Returns
    -------
    Plan
        Complete.

    Raises
    ------
    InputError
        If a file cannot be read, or something in it cannot be used.
    """
    job = load_job(path)
    made = plan(job, keep_going=within())
    return with_remedies(made, find_remedies(job, made, keep_going=within(REMEDY_SECONDS)))


def plan_learned(path: Path, folder: Path | None) -> Plan:
    """Plan the job in a file by what the log in the store taught.

    Parameters
    ----------
    path
        Of the job file.
    folder
        Of the store; the user's own where not given.

    Returns
    -------
    Plan
        As without a log where it says nothing of the job's lot, press or tooling.

    Raises
    ------
    InputError
        If a file cannot be read, or something in it cannot be used.
    StoreError
        If the store cannot be opened.
    """
    # The store takes a while to load, and a plan without the log needs none.
    from strapwright.service.shop_log.learned_jobs import learned_from  # noqa: PLC0415
    from strapwright.service.shop_log.log_files import shop_as_it_is  # noqa: PLC0415

    job = load_job(path)
    with shop_as_it_is(path, folder) as shop:
        known = learned_from(shop.store, shop.job.text, job)
    learned = known if known.says_anything else None
    made = plan(job, keep_going=within(), learned=learned)
    return with_remedies(made, find_remedies(job, made, keep_going=within(REMEDY_SECONDS)))


def falls_short(made: Plan) -> bool:
    """Whether a plan holds a refusal, or leaves open whether the part comes off."""
    return is_refused(made) or undecided(made.findings)


def plan_files(made: Plan, bars: str = "") -> dict[str, bytes]:
    """Make the files of a plan.

    Parameters
    ----------
    made
        The plan.
    bars
        Which bars the blanks are sawn from, for the sheet.

    Returns
    -------
    dict
        File name -> content: ``plan.json``, ``sheet.pdf``, ``template.pdf``, ``inspection.pdf``,
        where there is a blank ``blank.dxf``, for each further bar of a stack ``blank-bar-2.dxf``,
        and each drawing for a dark and a light ground, ``part.dark.svg``,
        ``bend-2-rest.light.svg``, of a bend that cannot be made ``bend-2-clash.light.svg`` alone.
    """
    # Typesetting and drawing take a while to load and a plan on the terminal needs neither.
    from strapwright.drawing import to_svg  # noqa: PLC0415
    from strapwright.drawing.blank_dxf import blank_dxf  # noqa: PLC0415
    from strapwright.sheets import setup_sheet  # noqa: PLC0415
    from strapwright.sheets.inspection_sheet import inspection_sheet  # noqa: PLC0415
    from strapwright.sheets.template_sheet import template_pdf  # noqa: PLC0415

    files = {
        "plan.json": to_text(plan_to_data(made)).encode(),
        "sheet.pdf": setup_sheet(made, bars=bars),
        "template.pdf": template_pdf(made),
        "inspection.pdf": inspection_sheet(made),
    }
    if made.blank is not None:
        files["blank.dxf"] = blank_dxf(made)
    for one in made.stack[1:]:
        # The part is named by its bar, so that no two pieces on the saw look alike.
        named = evolve(made.job.part, name=f"{made.job.part.name}, {one.name}")
        own = evolve(made, job=evolve(made.job, part=named), blank=one.blank)
        files[f"blank-bar-{one.bar}.dxf"] = blank_dxf(own)
    for name, scene in _scenes(made).items():
        files[f"{name}.dark.svg"] = to_svg(scene, "dark").encode()
        files[f"{name}.light.svg"] = to_svg(scene, "light").encode()
    return files


def write_plan(made: Plan, folder: Path, bars: str = "") -> tuple[Path, ...]:
    """Write the files of a plan into a folder.

    Parameters
    ----------
    made
        The plan.
    folder
        Made where it is missing.
    bars
        Which bars the blanks are sawn from, for the sheet.

    Returns
    -------
    tuple of Path
        What was written.

    Raises
    ------
    InputError
        If the folder cannot be written.
    """
    return write_files(folder, plan_files(made, bars))


def _scenes(made: Plan) -> dict[str, Scene]:
    from strapwright.drawing import (  # noqa: PLC0415
        bend_scene,
        blank_scene,
        curve_scene,
        off_scene,
        part_scene,
    )
    from strapwright.drawing.clash_drawing import clash_scene  # noqa: PLC0415

    scenes = {"part": part_scene(made)} if made.finished.size else {}
    if made.blank is not None:
        scenes["blank"] = blank_scene(made)
    for step in made.steps:
        if has_no_stop(made, step):
            scenes[f"bend-{step.bend}-clash"] = clash_scene(made, step)
            continue
        for pose in POSES:
            scenes[f"bend-{step.bend}-{pose}"] = bend_scene(made, step, pose)
        if step.coming_off is not None:
            scenes[f"bend-{step.bend}-off"] = off_scene(made, step)
        scenes[f"bend-{step.bend}-curve"] = curve_scene(made, step)
    return scenes
