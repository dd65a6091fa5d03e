"""Mends of an order: they are tried before they are said, and edits are offered only where they can be made."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.commands.mending import apply_edits, mend_files
from generator.rules import findings_of_everything
from generator.rules.finding import Edit, Mend, Reported
from generator.rules.mends import kept_edits
from generator.source.places import Place
from tests.rules.cases import Case, folder_of, library_of

ORDER = """order:
  - pull-mains-lead
  - open-back
  - unplug-battery
  - lift-guard
  - measure-charge
  - fold-ribbon
  - lift-battery
  - take-out-speaker
  - lift-board
  - take-off-sensor
  - lift-window
"""


def found_with(tmp_path: Path, order: str) -> tuple[Path, tuple[Reported, ...]]:
    """The findings of the good content with another text for its order."""
    content = folder_of(Case("", "", "", f"```change corin/device.yaml\n{ORDER}=>\n{order}```\n", 0), tmp_path)
    return content, findings_of_everything(library_of(content))


def test_a_flow_list_is_mended_in_place(tmp_path: Path) -> None:
    order = (
        "order: [pull-mains-lead, unplug-battery, open-back, lift-guard, measure-charge, fold-ribbon,\n"
        "        lift-battery, take-out-speaker, lift-board, take-off-sensor, lift-window]\n"
    )
    content, (found,) = found_with(tmp_path, order)
    assert found.finding.mend is not None
    path = content / "corin/device.yaml"
    path.write_text(apply_edits(path.read_text("utf-8"), found.finding.mend.edits), "utf-8")
    assert findings_of_everything(library_of(content)) == ()


def test_a_comment_would_stay_with_the_wrong_step_so_no_edit_is_offered(tmp_path: Path) -> None:
    order = ORDER.replace("  - open-back\n  - unplug-battery\n", "  - unplug-battery  # with the lever\n  - open-back\n")
    _, (found,) = found_with(tmp_path, order)
    assert found.finding.mend == Mend('Move "unplug-battery" after "open-back" in corin/device.yaml:9.')


def test_a_step_moves_past_several_others(tmp_path: Path) -> None:
    order = ORDER.replace("  - open-back\n", "").replace("  - lift-board\n", "  - lift-board\n  - open-back\n")
    content, found = found_with(tmp_path, order)
    assert [each.finding.mend.text for each in found if each.finding.mend] == [
        'Move "open-back" before "unplug-battery" in corin/device.yaml:16.'
    ]
    (mend,) = [each.finding.mend for each in found if each.rule == "order/behind" and each.finding.mend]
    assert len(mend.edits) == 8
    path = content / "corin/device.yaml"
    path.write_text(apply_edits(path.read_text("utf-8"), mend.edits), "utf-8")
    assert ORDER in path.read_text("utf-8")


def test_an_order_turned_round_is_said_once_a_cause_and_every_promise_holds(tmp_path: Path) -> None:
    lines = ORDER.splitlines(keepends=True)
    content, found = found_with(tmp_path, "".join([lines[0], *reversed(lines[1:])]))
    assert found
    path = content / "corin/device.yaml"
    before = path.read_text("utf-8")
    for each in found:
        if each.finding.mend is not None and each.finding.mend.edits and each.rule != "order/face":
            path.write_text(apply_edits(before, each.finding.mend.edits), "utf-8")
            after = findings_of_everything(library_of(content))
            assert each.finding.message not in {other.finding.message for other in after}


@pytest.mark.parametrize(
    ("line", "place", "text", "is_kept"),
    [
        ("  - a", Place("f", 1, 5, 1, 6), "b", True),
        ("  - a  # why", Place("f", 1, 5, 1, 6), "b", False),
        ("order: [a, b]", Place("f", 1, 9, 1, 10), "b", True),
        ("  - undo: a", Place("f", 1, 5, 1, 5), "turn: b\n  - ", True),
        ("work: [{undo: a}]", Place("f", 1, 8, 1, 8), "turn: b\n  - ", False),
        ("  - a", Place("f", 2, 5, 2, 6), "b", False),
        ("  - a", Place("f", 1, 5, 2, 1), "b", False),
        ("  - a", Place("g", 1, 5, 1, 6), "b", False),
    ],
)
def test_edits_are_kept_only_where_characters_alone_have_to_change(
    line: str, place: Place, text: str, is_kept: bool
) -> None:
    mend = Mend("Do it.", (Edit(place, text),))
    assert kept_edits(mend, {"f": (line,)}) == (mend if is_kept else Mend("Do it."))


def test_no_mend_is_no_mend() -> None:
    assert kept_edits(None, {}) is None


MIXED_UP = ORDER.replace("  - open-back\n  - unplug-battery\n", "  - unplug-battery\n  - open-back\n").replace(
    "  - take-out-speaker\n  - lift-board\n", "  - lift-board\n  - take-out-speaker\n"
)


def test_where_no_single_move_will_do_the_fewest_are_told_with_their_proof_once(tmp_path: Path) -> None:
    content, found = found_with(tmp_path, MIXED_UP)
    mends = [each.finding.mend for each in found if each.finding.mend]
    moves = (
        'Move two steps of the order in corin/device.yaml:8: "unplug-battery" after "open-back" '
        'and "lift-board" after "take-out-speaker".'
    )
    proof = (
        ' Fewer will not do: of "unplug-battery" and "open-back" only one can stay where it is, because "open-back" is '
        'needed for "unplug-battery"; of "lift-board" and "take-out-speaker" only one can stay where it is, because '
        '"take-out-speaker" is needed for "lift-board".'
    )
    assert sorted(mend.text for mend in mends) == [moves, moves + proof]
    for mend in mends:
        path = content / "corin/device.yaml"
        before = path.read_text("utf-8")
        path.write_text(apply_edits(before, mend.edits), "utf-8")
        assert findings_of_everything(library_of(content)) == ()
        path.write_text(before, "utf-8")


def test_mending_moves_the_fewest_steps_in_one_go(tmp_path: Path) -> None:
    content, found = found_with(tmp_path, MIXED_UP)
    told = list(mend_files(content, None, found))
    assert sum(line.startswith("corin/device.yaml: Move two steps") for line in told) == 1
    assert findings_of_everything(library_of(content)) == ()


def test_what_is_filmed_is_not_moved(tmp_path: Path) -> None:
    order = ORDER.replace("  - open-back\n  - unplug-battery\n", "  - unplug-battery\n  - open-back\n")
    content, _ = found_with(tmp_path, order)
    step = content / "corin/steps/unplug-battery.md"
    step.write_text(step.read_text("utf-8").replace("work:", "filmed: true\nwork:"), "utf-8")
    (found,) = findings_of_everything(library_of(content))
    assert found.finding.mend is not None
    assert found.finding.mend.text == 'Move "open-back" before "unplug-battery" in corin/device.yaml:10.'
    other = content / "corin/steps/open-back.md"
    other.write_text(other.read_text("utf-8").replace("work:", "filmed: true\nwork:"), "utf-8")
    (found,) = findings_of_everything(library_of(content))
    assert found.finding.mend == Mend(
        '"unplug-battery" and "open-back" are filmed and cannot all stay where they are: "open-back" is needed for '
        '"unplug-battery". Film one of them anew, or take `filmed` out of its file.'
    )
