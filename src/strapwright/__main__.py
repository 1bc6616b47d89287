"""Run the command line with ``python -m strapwright``."""

import sys

from strapwright.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
