"""Lets the comparisons import the referee, which is no part of the package."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parent))
