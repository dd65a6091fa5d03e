"""Every rule on its cases: it fires where it should, nothing else does, and what its mend promises comes true.

With PARTWAY_ACCEPT=1 in the environment the stored findings are written anew, to be read in the diff.
"""

from __future__ import annotations

import os
from dataclasses import fields, replace
from pathlib import Path

import pytest

from generator.anatomy.reading import Dangling
from generator.commands.mending import apply_edits
from generator.commands.reports.text import finding_lines
from generator.orders.guide import Library
from generator.orders.hazards import STANDARD_HAZARDS
from generator.rules import ERRORS, NOTES, RULES, WARNINGS, findings_of, findings_of_everything, function_of, level_of
from generator.rules.explanations import HEADINGS, documentation, explanation, summaries
from generator.rules.finding import LEVELS, Reported
from generator.source import faults
from generator.source.faults import Fault
from generator.source.places import Place
from tests.rules.cases import GOOD, KINDS, Case, case_file, cases_of, folder_of, library_of

IS_ACCEPTING = os.environ.get("PARTWAY_ACCEPT") == "1"
CASES = [case for rule in RULES if case_file(rule).exists() for case in cases_of(rule)]
RULES_FOLDER = Path(__file__).parents[2] / "generator" / "rules"
NO_RULES = {"trade"}


def test_the_good_content_has_no_findings() -> None:
    library = library_of(GOOD)
    assert library.guides[0].is_complete
    assert _text(library, findings_of_everything(library)) == ""


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.rule}-{case.kind}-{case.name}".replace(" ", "_"))
def test_case(case: Case, tmp_path: Path) -> None:
    content = folder_of(case, tmp_path)
    library = library_of(content)
    found = findings_of_everything(library)
    text = _text(library, found)
    if IS_ACCEPTING:
        _accept(case, text)
    else:
        assert text == case.findings
    if case.kind == "Fires":
        assert {each.rule for each in found} == {case.rule}, text
        _mends_work(content, case.rule, found)
    else:
        assert text == ""


def _mends_work(content: Path, rule: str, found: tuple[Reported, ...]) -> None:
    """The edits of each mend, made alone, leave fewer findings; and none of another rule."""
    for each in found:
        edits = each.finding.mend.edits if each.finding.mend else ()
        for file in {edit.place.file for edit in edits}:
            path = content / file
            before = path.read_text(encoding="utf-8")
            path.write_text(apply_edits(before, [e for e in edits if e.place.file == file]), encoding="utf-8")
        if edits:
            after = findings_of_everything(library_of(content))
            assert len(after) < len(found)
            assert {other.rule for other in after} <= {rule}
            path.write_text(before, encoding="utf-8")


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_has_its_cases(rule: str) -> None:
    kinds = [case.kind for case in cases_of(rule)]
    assert set(kinds) == set(KINDS)
    assert all(case.findings for case in cases_of(rule) if case.kind == "Fires")


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_explains_itself(rule: str) -> None:
    lines = documentation(rule).split("\n")
    assert lines[0].endswith(".")
    assert lines[1] == ""
    starts = [next(number for number, line in enumerate(lines) if line.startswith(heading)) for heading in HEADINGS]
    assert starts == sorted(starts)
    assert explanation(rule).startswith(f"{rule}  ({level_of(rule)})\n")


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_is_named_after_its_file(rule: str) -> None:
    function = function_of(rule)
    family, name = rule.replace("-", "_").split("/")
    assert function.__name__ == name
    assert function.__module__ == f"generator.rules.{family}.{name}"
    assert __import__(function.__module__, fromlist=["_"]).__doc__ == rule


def test_the_tables_list_every_rule_once() -> None:
    files = {
        f"{path.parent.name}/{path.stem}".replace("_", "-")
        for path in RULES_FOLDER.glob("*/*.py")
        if path.stem != "__init__" and path.parent.name not in NO_RULES
    }
    assert sorted(RULES) == sorted(files)
    assert len(set(RULES)) == len(RULES) == len(ERRORS) + len(WARNINGS) + len(NOTES)
    assert [rule for rule, _, _ in summaries()] == list(RULES)
    assert {level for _, level, _ in summaries()} == set(LEVELS)


def test_case_files_are_those_of_rules() -> None:
    folder = Path(__file__).parent
    found = {str(path.relative_to(folder).with_suffix("")) for path in folder.glob("*/*.md") if path.parent != GOOD}
    assert found == set(RULES)


def test_findings_of_one_guide_are_those_of_its_folder(tmp_path: Path) -> None:
    case = next(case for case in CASES if case.rule == "order/held" and case.kind == "Fires")
    library = library_of(folder_of(case, tmp_path))
    everything = findings_of_everything(library)
    assert findings_of(library.guides[0], library) == tuple(each for each in everything if each.device == "corin")


def test_every_fault_of_reading_is_put_in_words() -> None:
    """A fault that reading learns to find has to be put in words in the same breath."""
    place = Place("library.yaml", 1, 1, 1, 2)
    kinds = [kind for kind in vars(faults).values() if isinstance(kind, type) and issubclass(kind, Fault) and kind != Fault]
    assert len(kinds) > 8
    for kind in kinds:
        values = [_value_for(str(field.type), place) for field in fields(kind) if field.name != "place"]
        library = replace(library_of(GOOD), faults=(kind(place, *values),))
        found = [each for each in findings_of_everything(library) if each.finding.place == place]
        assert len(found) == 1, kind


@pytest.mark.parametrize("kind", ["part", "joint", "tool", "supply", "step", "face"])
def test_every_kind_of_name_that_points_nowhere_is_put_in_words(kind: str) -> None:
    library = library_of(GOOD)
    guide = replace(library.guides[0], dangling=(Dangling(kind, "x", (), Place("corin/device.yaml")),), is_complete=False)
    found = findings_of_everything(replace(library, guides=(guide,)))
    assert [each.rule for each in found] == [f"ref/unknown-{kind}"]


def _value_for(kind: str, place: Place) -> object:
    return {"str": "x", "bool": False, "Place": place, "tuple[str, ...]": ("x",)}[kind]


def test_the_hazards_with_a_caution_ready_are_those_that_are_explained() -> None:
    listed = " ".join(documentation("caution/missing").partition("stands ready for the hazard: ")[2].split()).rstrip(".")
    assert set(listed.split(", ")) == STANDARD_HAZARDS


def test_no_such_rule() -> None:
    with pytest.raises(KeyError):
        level_of("order/nothing")
    with pytest.raises(KeyError):
        documentation("order/nothing")


def _text(library: Library, found: tuple[Reported, ...]) -> str:
    return "\n".join("\n".join([*finding_lines(library, each), *_edits(each)]) + "\n" for each in found)


def _edits(found: Reported) -> list[str]:
    edits = found.finding.mend.edits if found.finding.mend else ()
    return [f"  edit {edit.place}-{edit.place.end_line}:{edit.place.end_column} {edit.text!r}" for edit in edits]


def _accept(case: Case, text: str) -> None:
    path = case_file(case.rule)
    whole = path.read_text(encoding="utf-8")
    now = next(each for each in cases_of(case.rule) if (each.kind, each.name) == (case.kind, case.name))
    block = f"```findings\n{now.findings}```\n"
    if block in now.text:
        new = now.text.replace(block, f"```findings\n{text}```\n")
    else:
        new = f"{now.text.rstrip()}\n\n```findings\n{text}```\n\n"
    if text or now.findings:
        path.write_text(whole[: now.start] + new + whole[now.start + len(now.text) :], encoding="utf-8")
