"""Where the passes of devices are kept."""

from __future__ import annotations

PASSES = "sharing passes"  # setting of the store; a backup that comes back brings none
