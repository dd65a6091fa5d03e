"""Small guides written as authors write them, for tests that want a few lines of content and a Guide."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from textwrap import dedent

from generator.orders.guide import Guide, Library
from generator.orders.reading import read_guides
from generator.source.reading import read_library

TOOLS = """
driver: {name: driver PH0, type: "screwdriver, cross recess", fits: {drive: cross-recess, size: PH0}, material: steel}
lever: {name: plastic lever, type: spudger, material: plastic}
iron: {name: soldering iron, fits: {kind: solder}, hazards: [hot surface]}
"""
SUPPLIES = """
tape: {name: lid tape, for: lid-glue}
"""


def write(folder: Path, files: Mapping[str, str]) -> Path:
    """Write content below `folder`, taking common indents away; tools and a supply are there unless given."""
    shared = {"library.yaml": "title: Bench\n", "tools.yaml": TOOLS, "supplies.yaml": SUPPLIES}
    for name, text in {**shared, **files}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(dedent(text).lstrip("\n"), "utf-8")
    return folder


def library_of(folder: Path, files: Mapping[str, str]) -> Library:
    return read_guides(read_library(write(folder, files)))


def guide_of(folder: Path, device: str, anatomy: str, steps: Mapping[str, str]) -> Guide:
    """One device called `box`; each step is its front matter without title, the title being its id with spaces."""
    files = {"box/device.yaml": device, "box/anatomy.yaml": anatomy}
    for name, matter in steps.items():
        files[f"box/steps/{name}.md"] = f"---\ntitle: {name.replace('-', ' ')}\n{dedent(matter).strip()}\n---\nDo it.\n"
    (guide,) = library_of(folder, files).guides
    assert guide.is_complete, (guide.faults, guide.dangling)
    return guide
