"""What tables say, and how each number is known: metals, steels, threads, drills, fits, speeds."""

from strapwright.catalog.materials import Grade, Known, Material, Note, NoteKind, RadiusRule
from strapwright.catalog.metal_table import find_material, materials
from strapwright.catalog.smallest_radii import smallest_radius

__all__ = [
    "Grade",
    "Known",
    "Material",
    "Note",
    "NoteKind",
    "RadiusRule",
    "find_material",
    "materials",
    "smallest_radius",
]
