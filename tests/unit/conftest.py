"""Let tests of this folder share plans made by hand."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parent))
