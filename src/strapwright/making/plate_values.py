"""What making is told and what it says: plates with holes, cutters, and how each hole is made."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.catalog.clearance import ClearanceFit

CutterKind = Literal[
    "centre drill",
    "drill",
    "reamer",
    "boring bar",
    "hole saw",
    "end mill",
    "counterbore",
    "tap",
    "countersink",
    "radius cutter",
]
Corner = Literal["lower left", "lower right", "upper left", "upper right"]
CORNERS: tuple[Corner, ...] = ("lower left", "lower right", "upper left", "upper right")
HoleKind = Literal["plain", "fit", "clearance", "tapped"]
ESTIMATE = (
    "A planning estimate, not a certification. Local codes and licensed practice come first. "
    "Measure stock and shafts before cutting."
)


@frozen(kw_only=True)
class Cutter:
    """One cutter of the crib.

    Attributes
    ----------
    kind
        What it is.
    name
        As a person calls it: ``3/8 drill``, ``25 mm reamer``, ``3/8-16 tap``.
    diameter
        [mm]; of a boring bar the smallest bore it enters, of a tap its thread's major diameter, of
        a radius cutter twice its radius.
    thread
        Name of a tap's thread, else empty.
    metric
        Whether it is a drill of the metric series.
    reach
        Deepest hole it makes [mm]; ``None`` where not stated.
    """

    kind: CutterKind
    name: str
    diameter: float
    thread: str = ""
    metric: bool = False
    reach: float | None = None


@frozen(kw_only=True)
class Machine:
    """The spindle that turns the cutter.

    Attributes
    ----------
    name
        As it is called.
    rpm_low, rpm_high
        Slowest and fastest spindle speed [rpm].
    power
        Of its motor [W].
    """

    name: str = "drill press or mill"
    rpm_low: float = 100.0
    rpm_high: float = 2500.0
    power: float = 750.0


@frozen(kw_only=True)
class HoleSpec:
    """One hole of a plate, from the plate's lower left corner seen on its face.

    Attributes
    ----------
    x, y
        Middle of the hole [mm].
    kind
        ``plain``: drilled; ``fit``: an ISO 286 hole; ``clearance``: for a bolt; ``tapped``.
    diameter
        Finished [mm]; of a tapped hole the major diameter.
    fit
        Class of a fit (``H7``) or of a clearance (``close``, ``normal``, ``loose``); else empty.
    thread
        Name of the thread, or of the bolt that goes through; else empty.
    depth
        [mm]; ``None`` goes through.
    purpose
        What it is for, a few words.
    least, most
        Limits of the finished diameter [mm].
    counterbore
        Diameter and depth of a seat for a bolt head [mm], or ``None``.
    exists
        Whether it is there already, and nothing is cut.
    """

    x: float
    y: float
    kind: HoleKind
    diameter: float
    least: float
    most: float
    fit: str | ClearanceFit = ""
    thread: str = ""
    depth: float | None = None
    purpose: str = ""
    counterbore: tuple[float, float] | None = None
    exists: bool = False


@frozen(kw_only=True)
class PlateDrawing:
    """A plate, or one face of a block, with its holes.

    Attributes
    ----------
    name
        E.g. ``push plate``, ``nose carrier, top edge``.
    metal
        A metal of the speed table.
    width, height, thickness
        Along x, along y, and through [mm].
    holes
        From the lower left corner.
    quantity
        How many alike [-].
    corner
        Which corner is the datum.
    edges_rounded
        Radius worked on one long edge, e.g. of a shoulder block [mm]; 0 for none.
    seat
        Radius of a half-round seat worked into one side along the upper edge [mm]; 0 for none.
    marks
        Lines to scribe on it, from end to end [mm].
    joint
        Whether these are two pieces clamped together, side by side, bored on their joint.
    hardened
        Whether it is already hard; then nothing is cut with high-speed steel.
    notes
        Sentences that belong to it.
    piece
        Name of the piece where this is another face of it; else empty.
    steel
        Of the catalog; empty where not stated.
    exists
        Whether the plate is there already, and only holes are cut.
    ram
        Diameter about its middle that is kept clear for the ram [mm]; 0 for none.
    """

    name: str
    metal: str
    width: float
    height: float
    thickness: float
    holes: tuple[HoleSpec, ...]
    quantity: int = 1
    corner: Corner = "lower left"
    edges_rounded: float = 0.0
    seat: float = 0.0
    marks: tuple[tuple[tuple[float, float], tuple[float, float]], ...] = ()
    joint: bool = False
    hardened: bool = False
    notes: tuple[str, ...] = ()
    piece: str = ""
    steel: str = ""
    exists: bool = False
    ram: float = 0.0

    @property
    def title(self) -> str:
        """What its sheet is headed with."""
        return f"{self.name}, existing: drill these holes" if self.exists else self.name


@frozen(kw_only=True)
class Threaded:
    """A thread across a shaft: its place from one end and its depth [mm]."""

    place: float
    thread: str
    depth: float


@frozen(kw_only=True)
class ShaftDrawing:
    """A round to cut to length: nose shaft, guide rod, shoulder round.

    Attributes
    ----------
    diameter, length
        [mm]
    fit
        Class it runs in, e.g. ``g6``; empty where its size is as bought.
    threads
        Across it, all on one line.
    steel
        Of the catalog; empty where not stated.
    """

    name: str
    metal: str
    diameter: float
    length: float
    quantity: int = 1
    fit: str = ""
    hardened: bool = False
    notes: tuple[str, ...] = ()
    threads: tuple[Threaded, ...] = ()
    steel: str = ""


@frozen(kw_only=True)
class Cut:
    """One cutter at one hole.

    Attributes
    ----------
    cutter
        From the crib.
    role
        ``centre``, ``pilot``, ``drill``, ``open up``, ``bore``, ``ream``, ``tap``, ``counterbore``.
    least, most
        Between which diameters it leaves the hole [mm].
    """

    cutter: Cutter
    role: str
    least: float
    most: float


@frozen(kw_only=True)
class Way:
    """A way round a cutter that is missing: ``bore``, ``sleeve``, ``next size`` or ``buy``."""

    kind: Literal["bore", "sleeve", "next size", "buy"]
    text: str


@frozen(kw_only=True)
class HoleMaking:
    """How the crib makes a hole.

    Attributes
    ----------
    cuts
        In order, the last one leaves the finished diameter; empty where the crib cannot make it.
    percent
        Real percentage of thread of a tapped hole [%], else ``None``.
    seat
        What cuts the seat of a bolt head afterwards, else ``None``.
    ways
        Ways round, where the crib cannot make it or makes it by a detour.
    notes
        Sentences to mind.
    """

    cuts: tuple[Cut, ...]
    percent: float | None = None
    seat: Cut | None = None
    ways: tuple[Way, ...] = ()
    notes: tuple[str, ...] = ()


@frozen(kw_only=True)
class HoleRow:
    """One line of a hole table, from the datum corner.

    Attributes
    ----------
    label
        ``A1``, ``A2``, ``B1``: a letter for each kind of hole.
    x, y
        From the datum edges into the plate [mm].
    touch_x, touch_y
        The same from where an edge finder of the stated tip touches: tip radius added [mm].
    hole
        As specified.
    """

    label: str
    x: float
    y: float
    touch_x: float
    touch_y: float
    hole: HoleSpec
