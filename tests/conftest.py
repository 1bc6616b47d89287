"""Compiled loops go to the folder that carries the digest of the kernels, as for the commands."""

from strapwright.service.warming import prepare_cache

prepare_cache()
