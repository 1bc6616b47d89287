"""Compiled loops go to the folder that carries the digest of the kernels, as for the commands.

No property has a deadline: how long an example takes belongs to the machine and who else is on it.
"""

from hypothesis import settings

from strapwright.service.compiler_cache import prepare_cache

prepare_cache()
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
