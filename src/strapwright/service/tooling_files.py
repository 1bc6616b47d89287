"""Make a tooling or a plate from its file; write what a person takes to the bench."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

from attrs import evolve, frozen

from strapwright.drawing.assembly_views.taken_apart import taken_apart
from strapwright.drawing.assembly_views.three_views import three_views
from strapwright.errors import InputError
from strapwright.making.assembly.assembly_values import Assembly
from strapwright.making.drawn_members.laying_out import Pieces, wall_findings
from strapwright.making.hole_table import TIP
from strapwright.making.plate_making import PlateMaking
from strapwright.making.plate_values import CORNERS, Cutter, Machine
from strapwright.making.tooling_making import ToolingMaking, make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.planning.member_loads import drawn_findings
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.quantities import Units, read_length
from strapwright.report.json_text import to_text
from strapwright.report.making_json import making_to_data
from strapwright.report.making_text import making_to_text
from strapwright.scene.primitives import Scene
from strapwright.service.crib_files import load_cutters
from strapwright.service.file_access import read_text_file
from strapwright.service.load_job import load_job
from strapwright.service.search_clock import within
from strapwright.shop.job import Job
from strapwright.shop_files.opening import parse
from strapwright.shop_files.plates.reading_plate import read_plate

_FASTEST = 60_000.0  # rpm; more is a slip
_LARGEST_TIP = 25.0  # mm


def load_making(
    path: Path,
    *,
    crib: Path | None = None,
    rpm: tuple[float, float] | None = None,
    tip: str | None = None,
    corner: str | None = None,
) -> ToolingMaking:
    """Work out how the tooling of a job, or the plate of a plate file, is made.

    Parameters
    ----------
    path
        A job file with a tooling, or a plate file.
    crib
        The crib file; a usual set where none is named.
    rpm
        Slowest and fastest spindle speed [rpm].
    tip
        Diameter of the edge finder's tip as typed, with its unit.
    corner
        Datum corner of every plate; each plate's own where not given.

    Raises
    ------
    InputError
        If a file cannot be read, or something in it cannot be used.
    """
    settings = bench_settings(crib=crib, rpm=rpm, tip=tip)
    text = read_text_file(path, "job or plate file")
    if "plate" in parse(text, path.name):
        plate, units = read_plate(text, path.name)
        name = plate.name
        pieces = Pieces(plates=(plate,), shafts=(), notes=(), findings=tuple(wall_findings(plate)))
    else:
        job = load_job(path)
        units, name = job.units, job.part.name
        pieces = checked_again(pieces_of(job), job, planned(job))
    if corner is not None:
        chosen = next(one for one in CORNERS if one == corner)
        pieces = evolve(pieces, plates=tuple(evolve(one, corner=chosen) for one in pieces.plates))
    return make_tooling(
        pieces, settings.cutters, name=name, units=units, machine=settings.machine,
        tip=settings.tip, usual=settings.usual,
    )  # fmt: skip


@frozen(kw_only=True)
class BenchSettings:
    """What a making is worked out with.

    Attributes
    ----------
    cutters
        Of the crib, or a usual set.
    machine
        Whose limits hold; ``None`` for a usual drill press.
    tip
        Diameter of the edge finder's tip [mm].
    usual
        Whether the cutters are a usual set.
    """

    cutters: tuple[Cutter, ...]
    machine: Machine | None
    tip: float
    usual: bool


def bench_settings(
    *, crib: Path | None, rpm: tuple[float, float] | None, tip: str | None
) -> BenchSettings:
    """Read what a making is worked out with; the parameters of :func:`load_making`.

    Raises
    ------
    InputError
        If the crib cannot be used, or a setting is out of range.
    """
    cutters = load_cutters(crib)
    machine = _machine(rpm)
    across = TIP if tip is None else float(read_length(tip, "--tip"))
    if not 0 <= across <= _LARGEST_TIP:
        raise InputError(
            "--tip", "the tip is out of range", "give its diameter, for example 0.200 in", value=tip
        )
    return BenchSettings(cutters=cutters, machine=machine, tip=across, usual=crib is None)


def planned(job: Job) -> tuple[Plan, ...]:
    """The plan of a job, or none where it cannot be planned; that a plan says, and no drawing."""
    with contextlib.suppress(InputError):
        return (plan(job, keep_going=within(), rate=False),)
    return ()


def checked_again(pieces: Pieces, job: Job, plans: Sequence[Plan]) -> Pieces:
    """Return pieces with what is found of them as drawn.

    Parameters
    ----------
    pieces
        As laid out.
    job
        Whose tooling it is.
    plans
        Of its part; without one only relief and pulling back load it.
    """
    found = drawn_findings(pieces, plans, job)
    return evolve(pieces, findings=(*pieces.findings, *found))


def making_files(made: ToolingMaking) -> dict[str, bytes]:
    """Make the files of a making.

    Parameters
    ----------
    made
        As worked out.

    Returns
    -------
    dict
        File name -> content: ``making.pdf``, ``making.txt``, ``making.json``, and for each plate
        with its name ``.dxf``, ``.dark.svg``, ``.light.svg``; likewise ``together`` and ``apart``
        for the tooling put together and taken apart.
    """
    # Typesetting and drawing take a while to load and the terminal needs neither.
    from strapwright.drawing import to_svg  # noqa: PLC0415
    from strapwright.drawing.assembly_views.scene_dxf import scene_dxf  # noqa: PLC0415
    from strapwright.drawing.plate_drawing import plate_scene  # noqa: PLC0415
    from strapwright.drawing.plate_dxf import plate_dxf  # noqa: PLC0415
    from strapwright.sheets.making_sheet import making_sheet  # noqa: PLC0415

    files = {
        "making.pdf": making_sheet(made),
        "making.txt": making_to_text(made).encode(),
        "making.json": to_text(making_to_data(made)).encode(),
    }
    for name, scene in assembly_scenes(made).items():
        files[f"{name}.dxf"] = scene_dxf(scene, made.units)
        files[f"{name}.dark.svg"] = to_svg(scene, "dark").encode()
        files[f"{name}.light.svg"] = to_svg(scene, "light").encode()
    for name, one in by_name(made).items():
        scene = plate_scene(one)
        files[f"{name}.dxf"] = plate_dxf(one)
        files[f"{name}.dark.svg"] = to_svg(scene, "dark").encode()
        files[f"{name}.light.svg"] = to_svg(scene, "light").encode()
    return files


def drawing_file(made: ToolingMaking, name: str) -> bytes | None:
    """Return the DXF of a plate or of the tooling by its file's name, or ``None`` where none is."""
    from strapwright.drawing.assembly_views.scene_dxf import scene_dxf  # noqa: PLC0415  likewise
    from strapwright.drawing.plate_dxf import plate_dxf  # noqa: PLC0415  slow to load

    if name in {"together.dxf", "apart.dxf"} and made.assembly is not None:
        return scene_dxf(assembly_scenes(made)[name.removesuffix(".dxf")], made.units)
    plate = by_name(made).get(name.removesuffix(".dxf"))
    return plate_dxf(plate) if plate is not None and name.endswith(".dxf") else None


def assembly_scenes(made: ToolingMaking) -> dict[str, Scene]:
    """Return the drawings of the tooling by the names of their files; none for a plate alone."""
    if made.assembly is None:
        return {}
    together, apart = _drawn(made.assembly, made.units, made.name)
    return {"together": together, "apart": apart}


@lru_cache(maxsize=8)  # a page and its files ask again, and what hides what takes a second or two
def _drawn(assembly: Assembly, units: Units, name: str) -> tuple[Scene, Scene]:
    return three_views(assembly, units, name), taken_apart(assembly, name)


def by_name(made: ToolingMaking) -> dict[str, PlateMaking]:
    """Return each plate by the name of its files, without an ending."""
    return {
        f"{number}-{slug(one.plate.name)}": one for number, one in enumerate(made.plates, start=1)
    }


def _machine(rpm: tuple[float, float] | None) -> Machine | None:
    if rpm is None:
        return None
    low, high = rpm
    if not 0 < low < high <= _FASTEST:
        raise InputError(
            "--rpm",
            "these are not a slowest and a fastest speed",
            "give for example --rpm 200 3000",
            value=f"{low:g} {high:g}",
        )
    return Machine(rpm_low=low, rpm_high=high)


def slug(name: str) -> str:
    """Return a name as a part of a file's name."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "plate"
