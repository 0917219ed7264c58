"""``python -m coaxwright`` is the command."""

import sys

from coaxwright.cli import main

if __name__ == "__main__":
    sys.exit(main())
