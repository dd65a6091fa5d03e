"""`python -m generator` and the command `partway`."""

from __future__ import annotations

from generator.commands import partway


def main() -> None:
    partway(prog_name="partway")


if __name__ == "__main__":
    main()
