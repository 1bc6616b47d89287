"""A search for a tooling in a process of its own: asked on standard input, told line by line.

The first line that comes in is what is asked, as JSON.  Each line that goes out is one of
``{"progress": [word, done, whole]}``, ``{"found": ...}`` and ``{"refused": sentence}``.  The input
stays open as long as somebody waits for the answer; when it closes, the search ends.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import threading
from typing import Any

from strapwright.service.compiler_cache import prepare_cache

_GENTLE = 10  # nice; pages come first on a small machine


def main() -> int:
    """Search, and tell how far it is.

    Returns
    -------
    int
        Exit code, 0.
    """
    asked = json.loads(sys.stdin.readline())
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is meant for who asks, who then goes
    threading.Thread(target=_end_with_the_asker, daemon=True).start()
    if hasattr(os, "nice"):
        os.nice(_GENTLE)
    prepare_cache()  # before the compiler is imported
    from strapwright.errors import InputError, StrapwrightError  # noqa: PLC0415
    from strapwright.pages.page_statements import place_name, told  # noqa: PLC0415
    from strapwright.pages.search_results import searched  # noqa: PLC0415

    try:
        found = searched(asked, lambda word, done, whole: _tell(progress=[word, done, whole]))
    except InputError as error:
        _tell(refused=f"{place_name(error.place)}: {told(error)}")
        return 0
    except StrapwrightError as error:
        _tell(refused=str(error))
        return 0
    _tell(found=found)
    return 0


def _end_with_the_asker() -> None:
    sys.stdin.read()
    os._exit(1)


def _tell(**said: Any) -> None:
    sys.stdout.write(json.dumps(said) + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
