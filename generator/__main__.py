"""`python -m generator` and the command `partway`."""

from __future__ import annotations

import os
import sys

from generator.commands import partway


def main() -> None:
    """Run the command. Output that nobody takes (a full disk) is told and ends with status 2, not as findings do with 1."""
    try:
        try:
            partway(prog_name="partway")
        finally:
            sys.stdout.flush()
    except BrokenPipeError:
        os._exit(1)  # as the command line does where it notices first
    except OSError as error:
        print(f"Error: The output cannot be written: {error.strerror}.", file=sys.stderr, flush=True)
        os._exit(2)


if __name__ == "__main__":
    main()
