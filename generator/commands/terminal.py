"""What the terminal at the other end can show."""

from __future__ import annotations

import os
import sys


def wants_colour() -> bool:
    """Whether standard output is a terminal whose user has not set NO_COLOR."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
