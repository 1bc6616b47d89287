"""How the handbook is built: MyST pages, warnings are errors, formulas as MathML.

MathML needs no script, so no page asks another address for anything.
"""

from __future__ import annotations

from typing import Any

from docutils.nodes import SkipNode
from docutils.utils.math.latex2mathml import tex2mathml

project = "Strapwright"
author = "the Strapwright maintainers"
copyright = "2026, the Strapwright maintainers"  # noqa: A001  the name the builder looks for
extensions = ["myst_parser"]
html_math_renderer = "mathml"
myst_enable_extensions = ["dollarmath", "deflist"]
myst_heading_anchors = 3
exclude_patterns = ["examples"]
html_theme = "furo"
html_title = "Strapwright handbook"
html_extra_path = ["plan.schema.json", "openapi.json"]
nitpicky = True


def _visit_math(translator: Any, node: Any) -> None:
    """Write a formula in the line."""
    translator.body.append(tex2mathml(node.astext()))
    raise SkipNode


def _visit_math_block(translator: Any, node: Any) -> None:
    """Write a formula on a line of its own, with its number where it has one."""
    formula = tex2mathml(node.astext(), as_block=True)
    translator.body.append(f'<div class="formula" style="margin: 0.8em 0">{formula}</div>')
    raise SkipNode


def setup(app: Any) -> None:
    """Tell the builder how formulas are written."""
    app.add_html_math_renderer("mathml", (_visit_math, None), (_visit_math_block, None))
