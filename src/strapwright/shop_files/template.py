"""A job file to begin with: a small part of a harbour workshop, every key explained.

A line ``# key = value`` shows a key that may be left out, or, below "In place of", one that may be
written in place of another.  What is meant when a key is left out is said beside it.
"""

from __future__ import annotations

from collections.abc import Mapping
from string import Template
from types import MappingProxyType

from strapwright.quantities import Units

_TEXT = Template("""\
# A job: one part, and the press and tooling it is bent on.
# Change what stands in quotes. A line that begins with # is not read.
# Lengths: 6, 3-1/2, 1.25, 2 in, 3' 4-1/2", 38 mm. What has no unit of its own is in $bare.

format = 1
# "inch" or "metric". If left out, every figure needs its unit, and sheets read in inches.
units = "$units"

[part]
name = "oar rest"  # stands at the head of the sheet; "part" if left out
quantity = 4  # how many; 1 if left out
bar = "flat $thickness x $width"  # "flat thickness x width", "square side" or "round diameter"
material = "$material"  # a name of the catalog; "unknown mild steel" will do, with wider bands
# How the legs are measured: "outside", "inside" or "centre"; outside if left out.
measured = "outside"
# Leg, bend, leg, bend, leg: a bend is up or down and how far it turns the bar, in degrees
# (90 for a square corner), above 0 and below 180. "up 90 radius $row" makes a large inside
# radius by a row of hits. "roll 90" before a bend turns a square or round bar, top towards you.
shape = ["$leg1", "up 90", "$leg2", "down 45", "$leg3"]
# Inside radius wanted. If left out: what the tooling makes.
# inside_radius = "$nose_radius"
# Bends in the order they are made; "best" finds the order with the least handling and is meant
# if left out, "natural" goes from end 1.
# order = [2, 1]
# Bars side by side under the nose; 1 if left out.
# at_once = 2
# Bars on each other under the nose; 1 if left out.
# stacked = 2
# Bend lines "across" the rolling direction, "along" it or "unknown"; across if left out.
# grain = "unknown"
# Edges as they came from the "mill", "sheared" or "flame cut"; mill if left out.
# edges = "sheared"
hot = false  # all bends are cold; hot bending is not covered
# A closed shape: the ends leave a "gap" or "weld gap" or make an "overlap"; one leg gives way.
# close = { kind = "weld gap", size = "$gap_at_ends", absorb = 3 }
# Welds across the bar, placed as holes are:
# weld = [{ leg = 1, from_end = "$weld_end" }]

# One such block a hole. Leave it out if there is none.
[[part.hole]]
leg = 1  # which leg, counted from the first
from_end = "$hole_end"  # from the free end of the first or last leg to the middle of the hole
# In place of from_end, from a bend beside the leg, measured like the leg:
# from_bend = 1
# distance = "$hole_bend"
diameter = "$hole"
# Off the middle of the width, + to the far side; 0 if left out.
# across = "$across"

# What you know of this batch of bar. Each one left out is taken from the catalog.
[lot]
# From the certificate or a test:
# yield = "$yield_strength"
# tensile = "$tensile_strength"
# Hardening exponent of the flow curve, up to 0.6:
# exponent = 0.18
# Springy stiffness on letting go, as a share of the elastic modulus, up to 1:
# unloading_ratio = 0.9
# As measured with a caliper:
# thickness = "$measured_thickness"

# The press. Leave out what you do not know; the plan says what it misses.
# It may also lie in a file beside this one, for all jobs: press = "press.toml" at the head.
[press]
bore = "$bore"  # inside diameter of the cylinder
rod = "$rod"  # diameter of the rod, below the bore
relief = "$relief"  # setting of the relief valve
stroke = "$stroke"
pump = "$pump"  # what the pump delivers
# In place of pump, a hand pump with the volume of one stroke:
# hand_pump = { volume = "$volume", strokes_per_minute = 30 }
# Share of the hydraulic force that reaches the nose; 0.95 if left out.
# efficiency = 0.93
# What the gauge reads while the ram runs free; 0 if left out.
# no_load = "$no_load"
# Travel the machine loses under load, measured once against a block; none if left out.
# give = { travel = "$give", at = "$give_at" }
# Smallest division of the gauge:
# gauge_step = "$gauge_step"
axis = "down"  # the ram pushes "down", "up" or "level"; down if left out
# How far the nose stands above the bar when it is laid in:
# daylight = "$daylight"
# Columns of the frame to both sides of the bar, clear distance and width; none if left out.
# columns = { apart = "$apart", width = "$column" }
# Width across the bar of the bed that the shoulders stand on; past the bar if left out.
# bed_width = "$bed"

# The tooling. It may also lie in a file beside this one: tooling = "oar-tooling.toml" at the head.
[tooling]
ram_side = "nose"  # which half moves, "nose" or "shoulders"; nose if left out
# Friction between bar and shoulders, 0 to 0.6; 0.1 if left out.
# friction = 0.12
# How surely you find the touch of nose and bar; 0.3 mm if left out.
# touch_error = "$touch_error"
# Most force the weakest member may see. If left out, only the relief valve limits the force.
# rating = "$rating"
# Push plate that carries the nose: across the bar, in the direction of the ram, along the nose.
# Assumed if left out; without its length it is taken to go on along the nose.
# plate = { width = "$plate_width", thick = "$plate", length = "$plate_width" }
# A pair of guide rods, one to each side: how far out, and where along the nose.
# rod = [{ out = "$rod_out", along = "$rod_along", diameter = "$rod_diameter" }]
# Anything else in the way, as left, low, right, high from the middle of the shoulder tops (from
# the nose's centre where it moves with the nose), and from where to where along the nose:
# obstacle = [{ name = "stop", side = "shoulders", box = [$box], along = [$along] }]
# What carries nose and shoulders, to be checked; see the page on tooling for all of it.
# members = { off_centre = "$off_centre", push_plate = { thickness = "$plate", material = "A36" } }

# The nose (punch): the round the bar bends around.
[tooling.nose]
shaft = "$shaft"  # its diameter
# In place of shaft, half of it:
# radius = "$nose_radius"
held = "both ends"  # or "one end", or "web" (its web alone); both ends if left out
drawable = false  # true where it can be drawn out of the part; false if left out
web = { thick = "$web", height = "$web_height" }  # plate that carries the shaft; no web if left out
# A groove of the rod's own round about the nose, for round rod: "none" or "fitted".
# groove = "fitted"
# Clear length of the nose between what carries it:
# span = "$span"
# From the push plate's face to the tip of the nose; height of the web and the shaft if left out.
# reach = "$reach"

# The shoulders (die): the two rounds that carry the bar.
[tooling.shoulders]
radius = "$shoulder"
opening = "$opening"  # from centre to centre of the two rounds
# In place of opening, the clear distance between them:
# gap = "$gap"
depth = "$depth"  # free depth below the shoulder tops; needed with a floor
floor = "open"  # "open", "flat", "vee" or "channel"; open if left out
# In place of floor, a vee with its included angle in degrees:
# floor = "vee"
# vee_angle = 85
# In place of floor, a channel (a U): clear between its walls, and how high they stand on its floor:
# floor = "channel"
# channel_width = "$channel"
# channel_walls = "$channel_walls"
height = "$height"  # from the face they stand on to their tops; without it there is no stop block
# From the middle of the opening to the outer edge that you see from above:
# outer_edge = "$outer_edge"
# Along the nose; without it they are taken to go on.
# length = "$plate_width"

# How the blank is worked out and read.
[blank]
# "strain" (from the bend itself), "book soft", "book medium", "book hard", "din 6935" or "factor".
method = "strain"  # strain if left out
# In place of method, where the neutral axis lies, as a share of the thickness:
# method = "factor"
# factor = 0.42
# "1/64", "1/32", "1/16", "decimal" or "mm": how the sheets read. By the unit system if left out.
# reading = "$reading"

# How fine a large radius by a row of hits is.
[hits]
# How far the made shape may stand off the true arc; 1/32 in (0.8 mm) if left out.
# tolerance = "$hits_tolerance"
""")

_INCH: Mapping[str, str] = MappingProxyType(
    {
        "bare": "inches",
        "units": "inch",
        "thickness": "1/4",
        "material": "A36 hot rolled",
        "width": "2",
        "leg1": "6",
        "leg2": "4-1/2",
        "leg3": "4",
        "hole_end": "1",
        "hole_bend": "4-1/2",
        "hole": "9/16",
        "across": "3/8",
        "yield_strength": "44 ksi",
        "tensile_strength": "66 ksi",
        "measured_thickness": "0.252",
        "bore": "3-1/2",
        "rod": "1-3/4",
        "relief": "2000 psi",
        "stroke": "8",
        "pump": "3.5 gpm",
        "volume": "0.5 in3",
        "no_load": "60 psi",
        "give": "0.02",
        "give_at": "5 tons (US)",
        "gauge_step": "50 psi",
        "touch_error": "0.005",
        "rating": "8 tons (US)",
        "off_centre": "1/8",
        "plate": "3/4",
        "plate_width": "6",
        "daylight": "6",
        "apart": "20",
        "column": "2",
        "bed": "16",
        "rod_out": "5",
        "rod_along": "3",
        "rod_diameter": "1",
        "box": '"8", "0", "9", "2"',
        "along": '"-1", "1"',
        "shaft": "1",
        "nose_radius": "1/2",
        "web": "1/2",
        "web_height": "3",
        "reach": "4-1/8",
        "shoulder": "3/8",
        "opening": "2-1/2",
        "gap": "1-3/4",
        "depth": "1-3/4",
        "channel": "1-1/2",
        "channel_walls": "1/2",
        "height": "4",
        "outer_edge": "2-1/4",
        "reading": "1/32",
        "gap_at_ends": "1/16",
        "weld_end": "2-1/2",
        "row": "6",
        "span": "4-1/2",
        "hits_tolerance": "1/64",
    }
)

_METRIC: Mapping[str, str] = MappingProxyType(
    {
        "bare": "mm",
        "units": "metric",
        "thickness": "6",
        "material": "S235",
        "width": "50",
        "leg1": "150",
        "leg2": "115",
        "leg3": "100",
        "hole_end": "25",
        "hole_bend": "115",
        "hole": "14",
        "across": "10",
        "yield_strength": "300 MPa",
        "tensile_strength": "450 MPa",
        "measured_thickness": "6.1",
        "bore": "80",
        "rod": "45",
        "relief": "140 bar",
        "stroke": "200",
        "pump": "13 L/min",
        "volume": "8 cm3",
        "no_load": "4 bar",
        "give": "0.5",
        "give_at": "50 kN",
        "gauge_step": "5 bar",
        "touch_error": "0.1",
        "rating": "70 kN",
        "off_centre": "3",
        "plate": "20",
        "plate_width": "150",
        "daylight": "160",
        "apart": "500",
        "column": "50",
        "bed": "420",
        "rod_out": "125",
        "rod_along": "75",
        "rod_diameter": "25",
        "box": '"200", "0", "225", "50"',
        "along": '"-25", "25"',
        "shaft": "25",
        "nose_radius": "12.5",
        "web": "12",
        "web_height": "75",
        "reach": "103",
        "shoulder": "10",
        "opening": "64",
        "gap": "44",
        "depth": "45",
        "channel": "38",
        "channel_walls": "12",
        "height": "100",
        "outer_edge": "56",
        "reading": "decimal",
        "gap_at_ends": "1.5",
        "weld_end": "60",
        "row": "150",
        "span": "110",
        "hits_tolerance": "0.4",
    }
)


def new_job_text(units: Units) -> str:
    """Return a commented job file that can be read, planned and filled in.

    Parameters
    ----------
    units
        ``inch`` or ``metric``; the figures are round ones of that system.
    """
    return _TEXT.substitute(_INCH if units == "inch" else _METRIC)
