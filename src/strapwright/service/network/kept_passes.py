"""Where the passes of devices are kept, and what becomes of them when a store is brought back."""

from __future__ import annotations

from strapwright.store import Store

PASSES = "sharing passes"  # setting of the store


def forget_passes(store: Store) -> None:
    """End all passes: one that was taken back since a backup must not come back with it."""
    store.set_setting(PASSES, "[]")
