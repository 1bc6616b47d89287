"""The last few cut plans by what they were made from, so that a page shows the one it booked."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable
from hashlib import sha256

from strapwright.service.cut_jobs import CutOrder

_KEPT = 6


class KeptOrders:
    """Cut plans; safe to use from several threads."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, CutOrder] = OrderedDict()
        self._lock = threading.Lock()

    def get(self, made_from: object, make: Callable[[], CutOrder]) -> CutOrder:
        """Return the cut plan of its inputs, made where it is not kept.

        Parameters
        ----------
        made_from
            Values that print all that they hold.
        make
            Makes it, outside any lock.

        Raises
        ------
        InputError
            If it cannot be made; that is not kept.
        """
        key = sha256(repr(made_from).encode()).hexdigest()
        with self._lock:
            found = self._kept.get(key)
            if found is not None:
                self._kept.move_to_end(key)
                return found
        made = make()
        with self._lock:
            made = self._kept.setdefault(key, made)
            while len(self._kept) > _KEPT:
                self._kept.popitem(last=False)
        return made
