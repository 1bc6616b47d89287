"""Compiled loops go to the folder that carries the digest of the kernels, as for the commands.

What several kinds of test share lies beside this file.

No property has a deadline: how long an example takes belongs to the machine and who else is on it.
The matrices are small, and a second thread for them waits for a core that another test has: that
took nine tenths of the time of the comparisons with the chain.
"""

import os
import sys
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # read when numpy is imported

from hypothesis import settings

from strapwright.service.compiler_cache import prepare_cache

sys.path.append(str(Path(__file__).parent))
prepare_cache()
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
