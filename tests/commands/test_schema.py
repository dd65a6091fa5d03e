"""`partway schema`: one printed, all written, each where a new guide looks for it."""

from __future__ import annotations

import json
from pathlib import Path

from generator.source.schemas import ABOUT, schema_of
from tests.commands.test_partway import run


def test_one_is_printed_and_the_kinds_are_listed() -> None:
    assert json.loads(run("schema", "device").stdout) == schema_of("device")
    assert [line.split()[0] for line in run("schema").stdout.splitlines()] == list(ABOUT)
    assert run("schema", "shelf").exit_code == 2


def test_new_files_name_a_schema_that_lies_where_they_say(tmp_path: Path) -> None:
    run("new", "corvel-2", "--to", tmp_path / "content", "--yes")
    found = 0
    for path in sorted((tmp_path / "content").rglob("*.yaml")):
        first = path.read_text("utf-8").splitlines()[0]
        schema = path.parent / first.removeprefix("# yaml-language-server: $schema=")
        assert json.loads(schema.read_text("utf-8"))["title"] == f"Partway: {path.stem}"
        found += 1
    assert found == 5


def test_all_are_written_into_a_folder(tmp_path: Path) -> None:
    assert run("schema", "--to", tmp_path / "schemas").exit_code == 0
    assert {path.name for path in (tmp_path / "schemas").iterdir()} == {f"{kind}.schema.json" for kind in ABOUT}
