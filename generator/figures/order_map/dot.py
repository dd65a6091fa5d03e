"""The layout by graphviz's dot, run as a program of its own.

The one place outside `source`, `media` and `commands` that reaches out of the process: a pure function of its input that
happens to be done by a program. It is given numbers only, reads and writes no file and asks no network. The program is the
one in the wheel `graphviz-pure`, whatever `dot` the machine may have, because positions differ between versions.
"""

from __future__ import annotations

import importlib.metadata
import json
import subprocess
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

from graphviz import Digraph  # type: ignore[import-untyped]

from generator.anatomy.parts import Point
from generator.figures.order_map.boxes import Boxes, Positions, are_apart
from generator.figures.order_map.layered import layered_layout

TIME_LIMIT = 20
"""Seconds; a map of 80 steps takes some hundredths of one."""

LIMITS = {"nslimit": "0.1", "nslimit1": "0.1", "mclimit": "0.05"}
"""Effort dot is held to when it did not come to an end."""

_POINTS = 72.0  # points in an inch; a unit is taken for a point

Run = Callable[[str], bytes | None]
"""DOT text to JSON, or None where there is no program or it did not come to an end."""


def dot_layout(boxes: Boxes) -> Positions:
    """Places by dot; where the program is missing, fails or takes too long, by the plain layout of our own.

    The same boxes are laid out once in a process.
    """
    return _remembered(boxes)


@lru_cache(maxsize=64)
def _remembered(boxes: Boxes) -> Positions:
    return layout_with(run_dot, boxes)


def layout_with(run: Run, boxes: Boxes) -> Positions:
    """The same with `run` for the program."""
    if boxes.sizes:
        for limits in ({}, LIMITS):
            answer = run(source_of(boxes, limits))
            places = None if answer is None else places_in(answer, len(boxes.sizes))
            if places is not None and are_apart(boxes, places):
                return places
    return layered_layout(boxes)


def source_of(boxes: Boxes, limits: dict[str, str]) -> str:
    """The DOT text: ids n0, n1, ..., sizes in inches and nothing an author wrote. The flow runs down the sheet."""
    graph = Digraph(
        graph_attr={
            "nodesep": _inches(boxes.across),
            "ranksep": _inches(boxes.along),
            "splines": "none",
            **limits,
        },
        node_attr={"label": "", "shape": "box", "fixedsize": "true"},
    )
    for box, (along, across) in enumerate(boxes.sizes):
        graph.node(f"n{box}", width=_inches(across), height=_inches(along))
    for start, end, weight in boxes.links:
        graph.edge(f"n{start}", f"n{end}", weight=str(weight))
    return str(graph.source)


def places_in(answer: bytes, count: int) -> Positions | None:
    """The places in dot's JSON, its first row turned to be the first column; None if it is not what was asked for."""
    try:
        found = {entry["name"]: _place(entry["pos"]) for entry in json.loads(answer)["objects"]}
        places = [found[f"n{box}"] for box in range(count)]
    except (ValueError, KeyError, TypeError):
        return None
    top = max((y for _, y in places), default=0.0)
    return tuple((top - y, x) for x, y in places)


def run_dot(source: str) -> bytes | None:
    """What the program makes of the source, or None."""
    program = _program()
    if program is None:
        return None
    try:
        done = subprocess.run(
            [program, "-Tjson0"], input=source.encode(), capture_output=True, timeout=TIME_LIMIT, check=False
        )
    except (OSError, subprocess.TimeoutExpired):
        return None
    return done.stdout if done.returncode == 0 else None


@lru_cache(maxsize=1)
def _program() -> Path | None:
    """The executable that came with the wheel; None if the wheel is not installed."""
    try:
        files = importlib.metadata.files("graphviz-pure") or []
    except importlib.metadata.PackageNotFoundError:
        return None
    names = ("graphviz-pure", "graphviz-pure.exe")
    return next((Path(str(file.locate())).resolve() for file in files if file.name in names), None)


def _place(position: str) -> Point:
    x, y = position.split(",")
    return float(x), float(y)


def _inches(units: float) -> str:
    return f"{max(units, 0.01) / _POINTS:.4f}"
