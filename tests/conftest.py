"""Compiled loops go to the folder that carries the digest of the kernels, as for the commands.

What several kinds of test share lies beside this file.

No property has a deadline: how long an example takes belongs to the machine and who else is on it.
"""

import sys
from pathlib import Path

from hypothesis import settings

from strapwright.service.compiler_cache import prepare_cache

sys.path.append(str(Path(__file__).parent))
prepare_cache()
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
