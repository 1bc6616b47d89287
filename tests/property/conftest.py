"""Let tests of this folder share a tooling stated in full."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parent))
