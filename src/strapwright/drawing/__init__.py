"""Drawings of a plan and of plates, and the DXF of them."""

from strapwright.drawing.bend_drawing import bend_scene
from strapwright.drawing.blank_drawing import blank_scene
from strapwright.drawing.curve_drawing import curve_scene, marker_places
from strapwright.drawing.moving_bend import moving_bend
from strapwright.drawing.off_drawing import off_scene
from strapwright.drawing.part_drawing import part_scene
from strapwright.scene.frame import PAPER, PHONE, WIDE, Frame
from strapwright.scene.primitives import Scene
from strapwright.scene.svg import to_svg

__all__ = [
    "PAPER",
    "PHONE",
    "WIDE",
    "Frame",
    "Scene",
    "bend_scene",
    "blank_scene",
    "curve_scene",
    "marker_places",
    "moving_bend",
    "off_scene",
    "part_scene",
    "to_svg",
]
