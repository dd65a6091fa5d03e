"""`partway score` as a person and as a program use it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import pytest

from generator.pages.score_words import TAGS
from tests.commands.test_partway import DEMO, DEVICE, demo, edit, run

__all__ = ["demo"]


def document(*arguments: str | Path) -> dict:
    result = run("score", DEVICE, "--as", "json", *arguments)
    assert result.exit_code == 0
    return json.loads(result.stdout)


def test_the_text_says_what_it_is_and_opens_every_number() -> None:
    result = run("score", DEVICE, "--content", DEMO)
    assert result.exit_code == 0
    head = result.stdout.splitlines()
    assert head[0] == "Veldrun Tarn 5: repairability index for smartphones and slate tablets"
    assert "Delegated Regulation (EU) 2023/1669" in head[1]
    assert head[2].startswith("Own estimate from this guide, not the label.")
    assert head[4].startswith("R ") and "(exact " in head[4] and ", class " in head[4]
    for words in ("Disassembly depth", "rear-facing camera: 6 steps, 3 points, weight 0.05", "Readings taken",
                  "battery removable by the end user: no", "Our own measure", "Memory: recalled"):  # fmt: skip
        assert words in result.stdout, words
    assert all(len(line) <= 125 for line in head)


def test_every_rule_cited_is_listed_once() -> None:
    text, rules = run("score", DEVICE, "--content", DEMO).stdout.split("\nRules, with where they were read")
    cited = {int(number.split("]")[0]) for number in text.split("[")[1:] if number.split("]")[0].isdigit()}
    listed = [int(line.split("]")[0].split("[")[1]) for line in rules.splitlines() if line.lstrip().startswith("[")]
    assert listed == sorted(cited) == list(range(1, len(listed) + 1))


def test_json_holds_exact_decimals_as_texts() -> None:
    index = document("--content", DEMO)["index"]
    products = [[Decimal(value) for value in criterion["product"]] for criterion in index["criteria"]]
    assert sum(low for low, _ in products) == Decimal(index["low"])
    assert sum(high for _, high in products) == Decimal(index["high"])
    assert len(index["low"].split(".")[1]) == 4
    assert index["possible"] is True and index["statement"].startswith("Own estimate")
    for criterion in index["criteria"]:
        for part in criterion["parts"]:
            assert part["lines"] and all(line["rule"]["tag"] for line in part["lines"])


def test_a_reading_is_taken_and_named() -> None:
    plain = document("--content", DEMO)["index"]
    whole = document("--content", DEMO, "--reading", "path=whole-path")["index"]
    told = next(e for e in plain["other_readings"] if (e["name"], e["value"]) == ("path", "whole-path"))
    assert (whole["low"], whole["high"]) == (told["low"], told["high"])
    assert next(taken["taken"] for taken in whole["readings"] if taken["name"] == "path") == "whole-path"


@pytest.mark.parametrize("written", ["path=", "paths=whole-path", "path", "rounding=up", "=", ""])
def test_a_reading_that_is_not_there_is_wrong_use(written: str) -> None:
    result = run("score", DEVICE, "--content", DEMO, "--reading", written)
    assert result.exit_code == 2
    assert "reading" in result.stderr and "Traceback" not in result.output


def test_a_device_that_is_not_there_is_wrong_use(tmp_path: Path) -> None:
    assert run("score", "tarn-6", "--content", DEMO).exit_code == 2
    assert run("score", DEVICE, "--content", tmp_path / "nothing").exit_code == 2


def test_other_kinds_of_device_get_the_rest(demo: Path) -> None:
    edit(demo / DEVICE / "device.yaml", "kind: phone\n", "kind: other\n")
    text = run("score", DEVICE, "--content", demo).stdout
    assert text.startswith("Veldrun Tarn 5: no index\n") and "Our own measure" in text
    told = document("--content", demo)
    assert told["index"] is None and told["no_index"] and told["efforts"]


def test_outside_the_scale_is_said(demo: Path) -> None:
    edit(demo / DEVICE / "device.yaml", "updates: 5 years", "updates: 2 years")
    text = run("score", DEVICE, "--content", demo).stdout
    assert "No R: outside the scale." in text and "at most" in text
    assert document("--content", demo)["index"]["possible"] is False


def test_motion_times_are_off_unless_asked_for() -> None:
    assert "Handling time" not in run("score", DEVICE, "--content", DEMO).stdout
    assert "TMU" in run("score", DEVICE, "--content", DEMO, "--motion-times").stdout
    assert "handling" not in document("--content", DEMO)
    assert document("--content", DEMO, "--motion-times")["handling"][0]["motions"]


def test_the_document_has_what_the_map_of_the_code_says_of_it() -> None:
    """Every name in code letters in the paragraph is a key, a value or an option."""
    told = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text("utf-8")
    (paragraph,) = [each for each in told.split("\n\n") if each.startswith("`partway score --as json`")]
    words = set(re.findall(r"`([a-z_]+)`", paragraph))
    assert len(words) > 15
    printed = run(
        "score", DEVICE, "--content", DEMO, "--as", "json", "--motion-times", "--if", "battery-strips becomes clips"
    )
    assert words - {"if"} <= set(keys_in(json.loads(printed.stdout)))
    tags = set(re.findall(r"tag` \(([a-z, \n]+)\)", paragraph)[0].replace("\n", " ").split(", "))
    assert tags == set(TAGS)


def keys_in(value: object) -> Iterator[str]:
    """Every key of a document, however deep."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield str(key)
            yield from keys_in(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from keys_in(inner)


def test_a_guide_that_could_not_be_read_whole_is_scored_with_a_warning(demo: Path) -> None:
    edit(demo / DEVICE / "steps" / "open-back.md", "title: Warm", "titel: Warm")
    result = run("score", DEVICE, "--content", demo)
    assert result.exit_code == 0
    assert "may be wrong" in result.stderr and "Traceback" not in result.output


def test_what_a_change_of_the_design_would_do() -> None:
    change = "display-plug is not behind speaker-box"
    text = run("score", DEVICE, "--content", DEMO, "--if", change).stdout
    assert text.startswith(f"If {change}: all below is of the device so changed")
    assert "  display assembly, disassembly depth: 16 steps, 1 point before; 14 steps, 2 points after\n" in text
    told = document("--content", DEMO, "--if", change)
    (moved,) = told["if"]["moved"]
    assert moved == {
        "criterion": "SDD", "code": "DA",
        "before": {"steps": [16], "low": 1, "high": 1}, "after": {"steps": [14], "low": 2, "high": 2},
    }  # fmt: skip
    # one point more of 0.25 x 0.30
    assert Decimal(told["if"]["after"]["low"]) - Decimal(told["if"]["before"]["low"]) == Decimal("0.0750")
    assert told["if"]["after"]["low"] == told["index"]["low"]


def test_a_change_that_touches_no_part_on_the_way_is_said_to_change_nothing() -> None:
    text = run("score", DEVICE, "--content", DEMO, "--if", "shield-clips becomes screws cross-recess PH00").stdout
    assert "No step and no point differs." in text


@pytest.mark.parametrize("change", ["", "battery", "nothing joins frame", "battery flies away"])
def test_a_change_that_cannot_be_followed_is_wrong_use(change: str) -> None:
    result = run("score", DEVICE, "--content", DEMO, "--if", change)
    assert result.exit_code == 2
    assert result.stderr.strip() and "Traceback" not in result.output


def test_the_same_bytes_each_time() -> None:
    assert run("score", DEVICE, "--content", DEMO).stdout == run("score", DEVICE, "--content", DEMO).stdout
