"""Run the command line, with ``python -m strapwright`` or as the command ``strapwright``."""

import sys


def run() -> int:
    """Run it so that Ctrl-C ends it in one line from the first moment on.

    Returns
    -------
    int
        Exit code.
    """
    from strapwright.cli.interrupts import (  # noqa: PLC0415  nothing before it
        end_at_once,
        heed_interrupts,
        keep_standard_places,
        say_stopped,
        was_pressed,
    )

    try:
        keep_standard_places()
        heed_interrupts()
        from strapwright.cli.main import main  # noqa: PLC0415  takes time, and may be stopped

        code = main()
        end_at_once()
    except KeyboardInterrupt:
        return say_stopped()
    except Exception:
        if was_pressed():
            return say_stopped()
        raise
    return code


if __name__ == "__main__":
    sys.exit(run())
