# ruff: noqa: E501, Q000, Q003  (a row a refusal: the sentence stands as it is read)
"""Every sentence with which a job file is refused."""

import re

import pytest

from strapwright.errors import InputError
from strapwright.shop_files.reading_job import files_named, read_job

JOB = """\
format = 1
units = "inch"

[part]
name = "fender hanger"
bar = "flat 1/4 x 2"
material = "A36 hot rolled"
shape = ["6", "up 90", "3-1/2", "down 45", "2"]

[[part.hole]]
leg = 2
from_bend = 1
distance = "1"
diameter = "9/16"

[press]
bore = "3-1/2"
rod = "1-3/4"
relief = "2000 psi"

[tooling]
nose = { shaft = "1" }
shoulders = { radius = "3/8", opening = "2-1/2" }
"""

BAR = 'bar = "flat 1/4 x 2"'
SHAPE = 'shape = ["6", "up 90", "3-1/2", "down 45", "2"]'
NOSE = 'nose = { shaft = "1" }'
SHOULDERS = 'shoulders = { radius = "3/8", opening = "2-1/2" }'
PLACE = 'from_bend = 1\ndistance = "1"'


def changed(old: str, new: str) -> str:
    assert JOB.count(old) == 1
    return JOB.replace(old, new)


def sentence(text: str, **kw: object) -> str:
    with pytest.raises(InputError) as caught:
        read_job(text, **kw)
    return str(caught.value)


# what is changed, to what, what is said
REFUSED = [
    # head
    ("format = 1", "format = 2", "format (line 1) '2': this format is not known here; write format = 1"),
    ("format = 1", "format = true", "format (line 1) 'true': this format is not known here"),
    ("format = 1\n", "", "format: this is missing; write format = 1 on the first line."),
    ('"inch"', '"feet"', "units (line 2) 'feet': this is not a unit system known here; write units = \"inch\" or \"metric\", or leave it out"),
    # units
    ('units = "inch"\n', "", "part.bar (line 5) '1/4': "),
    (BAR, 'bar = "flat 1/4 x 12 ft"', "part.bar (line 6) 'flat 1/4 x 12 ft': one size has a unit and the other has none; write the unit on both"),
    (BAR, 'bar = "flat 6 mm x 2"', "part.bar (line 6) 'flat 6 mm x 2': one size has a unit and the other has none"),
    (BAR, 'bar = "flat 1/4 x 1 1/2/3"', "part.bar (line 6) '1 1/2/3': there is a '/' too many"),
    ('"3-1/2"\nrod', '"1 1/2/3"\nrod', "press.bore (line 17) '1 1/2/3': "),
    ('"3-1/2"\nrod', '"80 psi"\nrod', "press.bore (line 17) '80 psi': "),
    ('"3-1/2"\nrod', 'true\nrod', "press.bore (line 17) 'true': this is neither text nor a number"),
    # unknown keys
    ("[press]", "[pres]", 'pres (line 16): unknown key; did you mean "press"?'),
    ("bore =", "boar =", 'press.boar (line 17): unknown key; did you mean "bore"?'),
    ("[press]", "[press]\nopening = 2", "press.opening (line 17): unknown key; it belongs in [tooling.shoulders]."),
    ("[part]", "[part]\nunits = 2", "part.units (line 5): unknown key; it belongs at the head."),
    ("[press]", "[press]\nzzz = 2", "press.zzz (line 17): unknown key; known here: bore, rod, relief"),
    ('diameter = "9/16"', 'diamter = "9/16"', 'part.hole[1].diamter (line 14): unknown key; did you mean "diameter"?'),
    (NOSE, 'nose = { shaft = "1", web = { thik = "1" } }', 'tooling.nose.web.thik (line 22): unknown key; did you mean "thick"?'),
    (NOSE, 'nose = { shaftt = "1" }', 'tooling.nose.shaftt (line 22): unknown key; did you mean "shaft"?'),
    # bar
    (BAR, "", "part.bar (line 4): this is missing; write \"flat 1/4 x 2\" (thickness x width)"),
    (BAR, 'bar = "flat 0 x 2"', "part.bar (line 6) '0': the thickness is 0; give a value from 0.01 to 100000 mm"),
    (BAR, 'bar = "flat -1/4 x 2"', "part.bar (line 6) '-1/4': the thickness is negative; give a value from 0.01"),
    (BAR, 'bar = "flat 1/4 x 0"', "part.bar (line 6) '0': the width is 0; give a value from 0.01"),
    (BAR, 'bar = "round -3/8"', "part.bar (line 6) '-3/8': the diameter is negative; give a value from"),
    (BAR, 'bar = "square 0"', "part.bar (line 6) '0': the side is 0; give a value from"),
    (BAR, 'bar = "flat 2 x 1/4"', "part.bar (line 6) 'flat 2 x 1/4': the thickness is greater than the width, and bending a flat on edge is not covered; write the smaller size first"),
    (BAR, 'bar = "flat 1/4"', "part.bar (line 6) 'flat 1/4': a flat bar has two sizes, thickness x width; write"),
    (BAR, 'bar = "round 1/4 x 2"', "part.bar (line 6) 'round 1/4 x 2': a round bar has one size; write"),
    (BAR, 'bar = "square"', "part.bar (line 6) 'square': a square bar has one size; write"),
    (BAR, 'bar = "flatt 1/4 x 2"', "part.bar (line 6) 'flatt 1/4 x 2': there is no section 'flatt' here; write"),
    (BAR, "bar = 7", "part.bar (line 6) '7': this is not a bar section; write"),
    # part
    ('material = "A36 hot rolled"', "", "part.material (line 4): this is missing; name it"),
    ('material = "A36 hot rolled"', 'material = " "', "part.material (line 7) ' ': this is empty; name it"),
    ("A36 hot rolled", "A63", "part.material (line 7) 'A63': the catalog has no such material; write"),
    ('"fender hanger"', '"fender\\u0007hanger"', "part.name (line 5) 'fender\\x07hanger': this is not one line of at most 80 printable characters; shorten it"),
    ('"fender hanger"', "12", "part.name (line 5) '12': this is not text; name the part"),
    ("[part]", "[part]\nquantity = 0", "part.quantity (line 5) '0': this is not a whole number from 1 to 10000; write for example quantity = 1."),
    ("[part]", "[part]\nquantity = 2.5", "part.quantity (line 5) '2.5': this is not a whole number from 1 to 10000"),
    ("[part]", "[part]\nquantity = true", "part.quantity (line 5) 'true': this is not a whole number"),
    ("[part]", "[part]\nat_once = 99", "part.at_once (line 5) '99': this is not a whole number from 1 to 20"),
    ("[part]", '[part]\nmeasured = "outsied"', "part.measured (line 5) 'outsied': this word is not recognised; write \"outside\", \"inside\", \"centre\" or \"straight\"; did you mean \"outside\"?"),
    ("[part]", '[part]\ninside_radius = "0"', "part.inside_radius (line 5) '0': the inside radius is 0; give a value from"),
    # shape
    (SHAPE, "", "part.shape (line 4): this is missing; write leg, bend, leg in turn"),
    (SHAPE, 'shape = "6 up 90 3"', "part.shape (line 8) '6 up 90 3': this is not a list; write leg, bend, leg in turn"),
    (SHAPE, "shape = []", "part.shape (line 8): the shape has fewer than two legs; write leg, bend, leg in turn"),
    (SHAPE, 'shape = ["6"]', "part.shape (line 8): the shape has fewer than two legs; write leg, bend, leg in turn"),
    (SHAPE, 'shape = ["up 90", "6", "up 90", "6"]', "part.shape[1] (line 8) 'up 90': the shape starts with a bend; write the first leg before it."),
    (SHAPE, 'shape = ["6", "up 90", "6", "up 90"]', "part.shape (line 8): the shape ends with a bend; write the last leg after the last bend."),
    (SHAPE, 'shape = ["6", "5", "up 90", "6"]', "part.shape[2] (line 8) '5': there are two legs in a row; write the bend between them"),
    (SHAPE, 'shape = ["6", "up 90", "down 90", "6"]', "part.shape[3] (line 8) 'down 90': there are two bends in a row; write the leg between them."),
    (SHAPE, 'shape = ["6", "left 90", "6"]', "part.shape[2] (line 8) 'left 90': there is no bend 'left' here; a bend is \"up\" or \"down\" and an angle"),
    (SHAPE, 'shape = ["6", "roll 90", "6"]', "part.shape (line 8): the shape has fewer than two legs; write leg, bend, leg in turn"),
    (SHAPE, 'shape = ["6", "dwn 90", "6"]', "part.shape[2] (line 8) 'dwn 90': there is no bend 'dwn' here; a bend is \"up\" or \"down\" and an angle, for example up 90; did you mean \"down\"?"),
    (SHAPE, 'shape = ["6", "up", "6"]', "part.shape[2] (line 8) 'up': the bend has no angle; write how far it turns"),
    (SHAPE, 'shape = ["6", "up 0", "6"]', "part.shape[2] (line 8) '0': the bend angle is 0; give an angle above 0 and below 180 degrees"),
    (SHAPE, 'shape = ["6", "up 180", "6"]', "part.shape[2] (line 8) '180': the bend angle is out of range; give an angle above 0 and below 180 degrees"),
    (SHAPE, 'shape = ["6", "up -90", "6"]', "part.shape[2] (line 8) '-90': the bend angle is negative; give an angle above 0 and below 180 degrees"),
    (SHAPE, 'shape = ["6", "up 90 mm", "6"]', "part.shape[2] (line 8) '90 mm': "),
    (SHAPE, 'shape = ["0", "up 90", "6"]', "part.shape[1] (line 8) '0': the leg is 0; give a value from"),
    (SHAPE, 'shape = ["6", "up 90", "-6"]', "part.shape[3] (line 8) '-6': the leg is negative; give a value from"),
    (SHAPE, 'shape = ["6", "up 90", false]', "part.shape[3] (line 8) 'false': this is neither text nor a number"),
    (SHAPE, "shape = [" + '6, "up 9", ' * 40 + "6]", "part.shape (line 8): the shape has 41 legs, more than 40; split the part."),
    # order
    ("[part]", "[part]\norder = [1]", "part.order (line 5) '1': the order must name each of the bends 1 to 2 once; write for example order = [2, 1]"),
    ("[part]", "[part]\norder = [1, 1]", "part.order (line 5) '1, 1': the order must name each of the bends 1 to 2 once"),
    ("[part]", "[part]\norder = [2, 3]", "part.order (line 5) '2, 3': the order must name each of the bends 1 to 2 once"),
    ("[part]", "[part]\norder = [2, true]", "part.order (line 5) '2, true': the order must name each of the bends 1 to 2 once"),
    ("[part]", '[part]\norder = "quickest"', "part.order (line 5) 'quickest': the order must name each of the bends 1 to 2 once"),
    # holes
    ("leg = 2", "leg = 4", "part.hole[1].leg (line 11) '4': there is no such leg; give a leg from 1 to 3."),
    ("leg = 2", "leg = 0", "part.hole[1].leg (line 11) '0': there is no such leg; give a leg from 1 to 3."),
    ("leg = 2", "", "part.hole[1].leg (line 10): this is missing; write the number of its leg, 1 to 3."),
    ("from_bend = 1", "from_bend = 3", "part.hole[1].from_bend (line 12) '3': this is not the number of a bend beside leg 2; write from_bend = 1 or 2."),
    ("leg = 2", "leg = 3", "part.hole[1].from_bend (line 12) '1': this is not the number of a bend beside leg 3; write from_bend = 2."),
    (PLACE, 'from_end = "1"', "part.hole[1].from_end (line 12) '1': leg 2 has no free end; write from_bend = 1 or 2 and distance."),
    (PLACE, "", "part.hole[1].from_bend (line 10): nothing says where along the leg the hole is; write from_bend = 1 or 2 and distance"),
    ("from_bend = 1", 'from_bend = 1\nfrom_end = "1"', "part.hole[1].from_bend (line 12): both from_end and from_bend are given; keep one of"),
    ("leg = 2\nfrom_bend = 1", 'leg = 1\nfrom_end = "1"', "part.hole[1].distance (line 13): from_end already says the distance; leave distance out"),
    ("from_bend = 1\ndistance", "from_bend = 1 # distance", "part.hole[1].distance (line 10): this is missing; write for example distance = \"1 in\"."),
    ('distance = "1"', 'distance = "3-5/8"', "part.hole[1].distance (line 13) '3-5/8': this is beyond the leg, which is 3.5 in long; give a smaller distance."),
    ("leg = 2\n" + PLACE, 'leg = 1\nfrom_end = "1/4"', "part.hole[1].from_end (line 12) '1/4': the hole runs off the end of the bar; give at least half the diameter."),
    ('"9/16"', '"2-1/64"', "part.hole[1].diameter (line 14) '2-1/64': the hole runs off the bar, which is 2 in wide; give a smaller diameter"),
    ('"9/16"', '"1/2"\nacross = "-7/8"', "part.hole[1].across (line 15) '-7/8': the hole runs off the bar, which is 2 in wide"),
    ("[[part.hole]]", "[part.hole]", "part.hole (line 10): this is not a list of tables; begin each one with a line [[part.hole]]."),
    # lot
    ("[press]", '[lot]\nyield = "66 ksi"\ntensile = "44 ksi"\n[press]', "lot.tensile (line 18) '44 ksi': the tensile strength is not above the yield strength; look at"),
    ("[press]", '[lot]\nthickness = "1/8"\n[press]', "lot.thickness (line 17) '1/8': the measured thickness is more than a quarter off the thickness of the bar; measure again"),
    ("[press]", "[lot]\nexponent = 0.7\n[press]", "lot.exponent (line 17) '0.7': the exponent is out of range; give a value from 0.001 to 0.6."),
    ("[press]", "[lot]\nunloading_ratio = 0\n[press]", "lot.unloading_ratio (line 17) '0': the unloading ratio is 0; give a value from 0.001 to 1."),
    ("[press]", '[lot]\nyield = "44 psi"\n[press]', "lot.yield (line 17) '44 psi': the yield is out of range; give a value from 10 to 3000 MPa (1.5 to 435 ksi)."),
    # press
    ("[press]", "[[press]]", "press (line 16) 'a list': this is a single value where a table is wanted; write [press]"),
    ('rod = "1-3/4"', 'rod = "3-1/2"', "press.rod (line 18) '3-1/2': the rod is not thinner than the bore; give a diameter below the bore, 3-1/2."),
    ('"2000 psi"', '"2000 MPa"', "press.relief (line 19) '2000 MPa': the relief is out of range; give a value from 0.001 to 200 MPa (0.15 to 29000 psi)."),
    ("[press]", "[press]\nefficiency = 0", "press.efficiency (line 17) '0': the efficiency is 0; give a value from 0.001 to 1."),
    ("[press]", "[press]\nefficiency = 1.01", "press.efficiency (line 17) '1.01': the efficiency is out of range; give a value from 0.001 to 1."),
    ("[press]", '[press]\nefficiency = "105 %"', "press.efficiency (line 17) '105 %': the efficiency is out of range"),
    ("[press]", '[press]\nno_load = "2000 psi"', "press.no_load (line 17) '2000 psi': the pressure at no load is not below the relief setting; give what the gauge reads"),
    ("[press]", '[press]\nno_load = "-1 psi"', "press.no_load (line 17) '-1 psi': the no load is negative; give 0, or a value from"),
    ("[press]", '[press]\nstroke = "0"', "press.stroke (line 17) '0': the stroke is 0; give a value from"),
    ("[press]", '[press]\naxis = "sideways"', "press.axis (line 17) 'sideways': this word is not recognised; write \"down\", \"up\" or \"level\"."),
    ("[press]", '[press]\npump = "2 gpm"\nhand_pump = { volume = "1 in3", strokes_per_minute = 30 }', "press.hand_pump (line 18): both pump and hand_pump are given; keep one of pump and hand_pump."),
    ("[press]", '[press]\nhand_pump = { volume = "1 in3" }', "press.hand_pump.strokes_per_minute (line 17): this is missing; write for example strokes_per_minute = 30."),
    ("[press]", '[press]\nhand_pump = { volume = "1 in3", strokes_per_minute = "30" }', "press.hand_pump.strokes_per_minute (line 17) '30': this is not a plain number; write it without quotes."),
    ("[press]", "[press]\nhand_pump = 3", "press.hand_pump (line 17) '3': this is a single value where a table is wanted; write [press.hand_pump] and beneath it its keys: volume, strokes_per_minute, low_volume, changes_at, piston, lever, arm."),
    ("[press]", '[press]\ngive = { travel = "0.02" }', "press.give.at (line 17): this is missing; write for example at ="),
    ("[press]", '[press]\ngive = { travel = "0.02", at = "5 tons" }', "press.give.at (line 17) '5 tons': "),
    # tooling
    (NOSE, "", "tooling.nose (line 21): this is missing; write for example nose ="),
    (SHOULDERS, "", "tooling.shoulders (line 21): this is missing; write for example shoulders ="),
    (NOSE, "nose = { reach = 4 }", "tooling.nose.shaft (line 22): the nose size is missing; write shaft = \"1 in\" (its diameter) or radius = \"1/2 in\"."),
    (NOSE, "nose = { shaft = 1, radius = 1 }", "tooling.nose.radius (line 22): both shaft and radius are given; keep one of shaft and radius."),
    (NOSE, "nose = { shaft = -1 }", "tooling.nose.shaft (line 22) '-1': the shaft diameter is negative; give a value from"),
    (NOSE, 'nose = { shaft = 1, held = "no end" }', "tooling.nose.held (line 22) 'no end': this word is not recognised; write \"both ends\", \"one end\" or \"web\"; did you mean \"one end\"?"),
    (NOSE, 'nose = { shaft = 1, drawable = "yes" }', "tooling.nose.drawable (line 22) 'yes': this is neither true nor false; write drawable = true."),
    (NOSE, "nose = { shaft = 1, reach = 3, web = { thick = 0.5, height = 3 } }", "tooling.nose.reach (line 22) '3': the reach is not more than the height of the web; give the distance"),
    (NOSE, "nose = { shaft = 1, reach = 0.5 }", "tooling.nose.reach (line 22) '0.5': the reach is not more than the nose radius; give the distance"),
    (NOSE, "nose = { shaft = 1, web = { thick = 0.5 } }", "tooling.nose.web.height (line 22): this is missing; write for example height ="),
    (SHOULDERS, 'shoulders = { opening = "2" }', "tooling.shoulders.radius (line 23): this is missing; write for example radius ="),
    (SHOULDERS, 'shoulders = { radius = "3/8" }', "tooling.shoulders.opening (line 23): this is missing; write opening = \"2-1/2 in\" (centre to centre) or gap = \"1-3/4 in\" (clear)."),
    (SHOULDERS, 'shoulders = { radius = "3/8", opening = "0" }', "tooling.shoulders.opening (line 23) '0': the opening is 0; give a value from"),
    (SHOULDERS, 'shoulders = { radius = "3/8", gap = "-1" }', "tooling.shoulders.gap (line 23) '-1': the gap is negative; give a value from"),
    (SHOULDERS, 'shoulders = { radius = "3/8", opening = "3/4" }', "tooling.shoulders.opening (line 23) '3/4': the shoulders overlap, for the opening is not more than twice their radius; give"),
    (SHOULDERS, "shoulders = { radius = 1, opening = 3, gap = 1 }", "tooling.shoulders.gap (line 23): both opening and gap are given; keep one of opening and gap."),
    (SHOULDERS, 'shoulders = { radius = 1, opening = 3, floor = "flat" }', "tooling.shoulders.depth (line 23): this is missing, though the floor is flat; write the depth"),
    (SHOULDERS, 'shoulders = { radius = 1, opening = 3, depth = 3, floor = "flat", height = 2 }', "tooling.shoulders.depth (line 23) '3': the floor lies below the bed that the shoulders stand on; measure both"),
    (SHOULDERS, 'shoulders = { radius = 1, opening = 3, depth = 2, floor = "vee" }', "tooling.shoulders.vee_angle (line 23): this is missing; write its included angle"),
    (SHOULDERS, 'shoulders = { radius = 1, opening = 3, depth = 2, floor = "vee", vee_angle = 180 }', "tooling.shoulders.vee_angle (line 23) '180': the vee angle is out of range; give an angle above 0 and below 180 degrees"),
    (SHOULDERS, "shoulders = { radius = 1, opening = 3, vee_angle = 85 }", "tooling.shoulders.vee_angle (line 23) '85': this has no effect while the floor is open; write floor = \"vee\""),
    (SHOULDERS, 'shoulders = { radius = 1, opening = 4, channel_walls = "1/2" }', "tooling.shoulders.channel_walls (line 23) '1/2': this has no effect while the floor is open; write floor = \"channel\""),
    (SHOULDERS, 'shoulders = { radius = 1, opening = 4, floor = "channel" }', "tooling.shoulders.depth (line 23): this is missing, though the floor is channel; write the depth"),
    (SHOULDERS, 'shoulders = { radius = 1, opening = 4, depth = 2, floor = "channel", channel_width = 1 }', "tooling.shoulders.channel_walls (line 23): this is missing, though the channel's width is entered; enter both the channel's width"),
    (SHOULDERS, 'shoulders = { radius = 1, opening = 4, depth = 2, floor = "channel", channel_width = 2, channel_walls = 1 }', "tooling.shoulders.channel_width (line 23) '2': the channel is not narrower than the clear gap between the shoulders, so its walls would stand in them; leave"),
    (SHOULDERS, 'shoulders = { radius = 1, opening = 4, depth = 2, floor = "channel", channel_width = 1, channel_walls = 2 }', "tooling.shoulders.channel_walls (line 23) '2': the walls reach the shoulder tops or higher, so the bar would sit on them; give less"),
    (SHOULDERS, "shoulders = { radius = 1, opening = 3, outer_edge = 1.5 }", "tooling.shoulders.outer_edge (line 23) '1.5': the outer edge lies inside the shoulder's centre; give the distance"),
    ("[tooling]", "[tooling]\nfriction = 0.7", "tooling.friction (line 22) '0.7': the friction is out of range; give 0, or a value from 0.001 to 0.6."),
    ("[tooling]", "[tooling]\nfriction = -0.1", "tooling.friction (line 22) '-0.1': the friction is negative; give 0, or a value from 0.001 to 0.6."),
    ("[tooling]", '[tooling]\nram_side = "die"', "tooling.ram_side (line 22) 'die': this word is not recognised; write \"nose\" or \"shoulders\"."),
    ("[tooling]", '[tooling]\nrating = "8 tons"', "tooling.rating (line 22) '8 tons': "),
    ("[tooling]", "[tooling]\ntouch_error = -1", "tooling.touch_error (line 22) '-1': the touch error is negative; give 0, or a value from"),
    # blank
    ("[press]", '[blank]\nmethod = "book"\n[press]', "blank.method (line 17) 'book': this word is not recognised; write \"strain\", \"book soft\","),
    ("[press]", '[blank]\nmethod = "factor"\n[press]', "blank.factor (line 16): this is missing, though method is factor; write for example factor = 0.42"),
    ("[press]", "[blank]\nfactor = 0.4\n[press]", "blank.factor (line 17) '0.4': this has no effect while method is strain; write method = \"factor\""),
    ("[press]", '[blank]\nmethod = "factor"\nfactor = 1.2\n[press]', "blank.factor (line 18) '1.2': the factor is out of range; give a value from 0.001 to 1."),
    ("[press]", '[blank]\nreading = "1/8"\n[press]', "blank.reading (line 17) '1/8': this word is not recognised; write \"1/64\", \"1/32\", \"1/16\", \"decimal\" or \"mm\""),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), REFUSED, ids=[said[:50] for *_, said in REFUSED])
def test_what_cannot_be_used_is_refused_with_its_place_and_remedy(
    old: str, new: str, said: str
) -> None:
    text = sentence(changed(old, new))
    assert text.startswith(said)
    assert re.fullmatch(r".+: .+; .+[.?]", text)


ENDS = "job file (line {}): this is not a TOML file: it ends in the middle of a line or a list; "
NOT_A_JOB = [
    ("", "job file: the file is empty; write format = 1, then write [part] with"),
    (" \n\t\n", "job file: the file is empty; write format = 1, then write [part] with"),
    ("format = 1", "part: the table [part] is missing; write [part] with name, bar, material"),
    ("format = 1\npart = 3", "part (line 2) '3': this is a single value where a table is wanted"),
    ("format = 1\nbore = 3 in", "job file (line 2): this is not a TOML file: "),
    ("format = 1\n[part\nbar = 1", "job file (line 2): this is not a TOML file: "),
    ("format = 1\nunits =", ENDS.format(2)),
    ('format = 1\nunits = "in', ENDS.format(2)),
    ('format = 1\n[part]\nshape = ["5",\n', ENDS.format(3)),
    ("format = 1\nformat = 1", "job file (line 2): this is not a TOML file: "),
    ("\x89PNG\r\n\x1a\n", "job file (line 1): this is not a TOML file: "),
    ("a = " + "[" * 5000, "job file (line 1): more than 8 brackets are open"),
    ("[part]\na = 1\n[part.a]\n", "job file: this is not a TOML file: "),
    (
        "#" * 300_000,
        "job file: the file has 300000 characters, more than 100000; this is too big to be a job file",
    ),
]


@pytest.mark.parametrize(("text", "said"), NOT_A_JOB, ids=range(len(NOT_A_JOB)))
def test_what_is_no_job_file_is_refused(text: str, said: str) -> None:
    assert sentence(text).startswith(said)


PRESS_FILE = 'format = 1\nunits = "metric"\n[press]\nbore = 80\nrod = 45\n'
BESIDE = changed(JOB[JOB.index("[press]") : JOB.index("[tooling]")], "").replace(
    "[part]", 'press = "press.toml"\n[part]'
)


def test_shop_files_are_named_and_read_in_their_own_units() -> None:
    assert files_named(JOB) == ()
    assert files_named(BESIDE) == ("press.toml",)
    both = BESIDE[: BESIDE.index("[tooling]")].replace("[part]", 'tooling = "press.toml"\n[part]')
    assert files_named(both) == ("press.toml",)
    job = read_job(BESIDE, beside={"press.toml": PRESS_FILE})
    assert job.press is not None
    assert (job.units, job.press.bore, job.press.rod) == ("inch", 80, 45)


@pytest.mark.parametrize(
    ("shop", "said"),
    [
        (PRESS_FILE.replace("bore", "boar"), 'press.toml: press.boar (line 4): unknown key; did you'),
        (PRESS_FILE.replace("80", "40"), "press.toml: press.rod (line 5) '45': the rod is not thinner"),
        (PRESS_FILE.replace("80", '"0"'), "press.toml: press.bore (line 4) '0': the bore is 0; give a"),
        (PRESS_FILE.replace('units = "metric"', ""), "press.toml: press.bore (line 4) '80': "),
        (PRESS_FILE.replace("press", "tooling"), "press.toml: the table [press] is missing, though"),
        (PRESS_FILE + "[part]\n", "press.toml: part (line 6): unknown key; known here: format, units"),
        ("", "press.toml: the file is empty; write"),
        ("[", "press.toml (line 1): this is not a TOML file: "),
    ],
)  # fmt: skip
def test_a_shop_file_is_refused_under_its_name(shop: str, said: str) -> None:
    assert sentence(BESIDE, beside={"press.toml": shop}).startswith(said)


def test_a_shop_file_must_be_there_and_lie_beside_the_job() -> None:
    assert sentence(BESIDE).startswith(
        "press (line 4) 'press.toml': there is no such file beside the job; put it there"
    )
    for name in (
        "../press.toml",
        "/etc/press.toml",
        "a\\\\b.toml",
        "press.txt",
        ".toml",
        "C:p.toml",
    ):
        with pytest.raises(InputError, match="not the plain name of a TOML file beside the job"):
            files_named(BESIDE.replace("press.toml", name))
