"""Bar metals with how each number is known, and the smallest radius each takes."""

from strapwright.catalog.materials import Grade, Known, Material, Note, NoteKind, RadiusRule
from strapwright.catalog.radii import smallest_radius
from strapwright.catalog.table import find_material, materials

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
