"""The one direction of data: imports point from the pages to the source, never back."""

from __future__ import annotations

import ast
from pathlib import Path

PACKAGE = Path(__file__).parent.parent / "generator"
ROWS = (
    ("source", "languages"),
    ("anatomy",),
    ("orders",),
    ("rules", "indices", "figures", "media", "draft"),
    ("review",),
    ("pages",),
    ("handover", "editing"),
    ("commands",),
)
ROW = {folder: row for row, folders in enumerate(ROWS) for folder in folders}
EDGE = ("commands", "__main__")
ALLOWED = {"figures/order_map/dot.py": {"subprocess"}, "languages/locales.py": {"datetime"}}
"""The layout program; a day as a value, to be set in words."""


def imports(path: Path) -> list[tuple[int, str]]:
    found = []
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found.append((node.lineno, node.module))
        elif isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
    return found


def modules() -> list[Path]:
    return [path for path in sorted(PACKAGE.rglob("*.py")) if "_themes" not in path.parts and "_content" not in path.parts]


def folder_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def test_imports_point_up_the_table_only() -> None:
    wrong = []
    for path in modules():
        here = folder_of(path)
        for line, name in imports(path):
            parts = name.split(".")
            if parts[0] == "generator" and len(parts) > 1 and parts[1] in ROW and here in ROW:
                there = parts[1]
                if there != here and ROW[there] >= ROW[here]:
                    wrong.append(f"{path.relative_to(PACKAGE.parent)}:{line} imports {name}")
    assert wrong == []


def test_only_source_and_commands_touch_the_disk_the_clock_or_the_environment() -> None:
    """`source.files` reads what authors wrote; `rules` read the tables of facts that ship with them.

    `order_map.dot` runs the layout program: a pure function of its input that happens to be done by a program, with no
    file and no network. Pages are given it as a plain function.
    """
    outside = {"os", "sys", "time", "tempfile", "shutil", "subprocess", "socket", "datetime", "random"}
    wrong = []
    for path in modules():
        if folder_of(path) in EDGE or path.relative_to(PACKAGE).as_posix() == "source/files.py":
            continue
        allowed = ALLOWED.get(path.relative_to(PACKAGE).as_posix(), set())
        named = [(line, name) for line, name in imports(path) if name.split(".")[0] in outside - allowed]
        wrong += [f"{path.name}:{line} {name}" for line, name in named]
    assert wrong == []


def test_only_commands_print() -> None:
    wrong = []
    for path in modules():
        if folder_of(path) not in EDGE:
            tree = ast.parse(path.read_text("utf-8"))
            for node in ast.walk(tree):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("print", "open"):
                    wrong.append(f"{path.name}:{node.lineno}")
    assert wrong == []


def test_no_drawer_without_a_name() -> None:
    assert not [path for path in modules() if path.stem in ("utils", "helpers", "common", "manager")]


def test_every_folder_of_the_package_has_its_row() -> None:
    folders = {path.name for path in PACKAGE.iterdir() if (path / "__init__.py").is_file()}
    assert folders <= set(ROW)
