"""The schemas are schemas, take every file that is right, and refuse what the records refuse for its shape."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from jsonschema import Draft202012Validator

from generator.source.checking import check_record
from generator.source.file_kinds import FILE_KINDS, file_kind
from generator.source.front_matter import FrontMatter, split_front_matter
from generator.source.schemas import ABOUT, schema_of
from generator.source.yaml_tree import read_yaml
from tests.rules.cases import Case, cases_of, folder_of
from tests.source.writing.test_tidying import anatomies, devices, steps, tools

ROOT = Path(__file__).parents[2]
FOLDERS = ("content", "tests/pages/shelf", "tests/pages/dryers", "tests/rules/good")
BAD = [
    case for rule in ("file/key", "file/kind", "file/path", "time/bad") for case in cases_of(rule) if case.kind == "Fires"
]
WEAKER = {"A link that does something": "the link stands in prose, which has no schema"}
"""Cases that only `partway check` tells, and why."""
VALIDATORS = {kind: Draft202012Validator(schema_of(kind)) for kind in ABOUT}


def data(content: Path, path: Path) -> tuple[str, Any]:
    """The kind of a file and what its YAML says; the kind is empty for a file without a schema."""
    kind = file_kind(path.relative_to(content).as_posix()) or ""
    if kind not in ABOUT:
        return "", None
    text = path.read_text("utf-8")
    if kind == "step":
        halves = split_front_matter(text, "")
        text = halves.yaml if isinstance(halves, FrontMatter) else ""
    return kind, read_yaml(text, "").value


def faulty(content: Path) -> list[str]:
    found = []
    for path in sorted(content.rglob("*")):
        kind, value = data(content, path) if path.is_file() and path.suffix in (".md", ".yaml") else ("", None)
        if kind and not VALIDATORS[kind].is_valid(value):
            found.append(path.relative_to(content).as_posix())
    return found


@pytest.mark.parametrize("kind", ABOUT)
def test_a_schema_is_one_by_the_meta_schema(kind: str) -> None:
    Draft202012Validator.check_schema(schema_of(kind))
    assert schema_of(kind)["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize("folder", FOLDERS)
def test_files_that_are_right_are_taken(folder: str) -> None:
    assert faulty(ROOT / folder) == []


@pytest.mark.parametrize("case", BAD, ids=lambda case: f"{case.rule}-{case.name}".replace(" ", "_"))
def test_what_is_refused_for_its_shape_is_refused_by_the_schema_too(case: Case, tmp_path: Path) -> None:
    assert bool(faulty(folder_of(case, tmp_path))) == (case.name not in WEAKER)


@pytest.mark.parametrize(
    ("kind", "values"), [("anatomy", anatomies), ("device", devices), ("step", steps), ("tools", tools)], ids=str
)
def test_what_the_records_take_the_schemas_take(kind: str, values: Any) -> None:
    @given(values)
    def law(value: dict[str, Any]) -> None:
        import json

        tree = read_yaml(json.dumps(value), "")
        if not check_record(tree, FILE_KINDS[kind]).faults:
            VALIDATORS[kind].validate(tree.value)

    law()


@pytest.mark.parametrize(
    "action",
    [
        {"undo": "a", "lift": "b"},
        {},
        {"with": "a"},
        {"undo": "a", "to": "70 °C"},
        {"check": "x", "proves": "discharged"},
        {"check": "x", "of": "a"},
    ],
)
def test_keys_that_do_not_go_together_are_refused(action: dict[str, str]) -> None:
    assert not VALIDATORS["step"].is_valid({"title": "a", "work": [action]})


def test_every_key_says_what_it_takes() -> None:
    joint = schema_of("anatomy")["$defs"]["joint"]
    assert joint["properties"]["torque"]["anyOf"][0]["description"] == "A torque such as 0.06 N·m."
    assert joint["required"] == ["kind", "joins"] and joint["properties"]["joins"]["minItems"] == 2
