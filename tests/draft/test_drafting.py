"""Sentences, and what they ask for."""

from __future__ import annotations

from pathlib import Path

import pytest

import generator.draft.lexicon as lexicons
from generator.draft.assembling import draft_of
from generator.draft.captions import read_captions
from generator.draft.lexicon import lexicon
from generator.draft.records import Draft


def drafted(text: str, language: str = "en") -> Draft:
    return draft_of(read_captions(text), lexicon(language))


def work(text: str, language: str = "en") -> list[tuple[str, str]]:
    return [(action.verb, action.target) for step in drafted(text, language).steps for action in step.actions]


@pytest.mark.parametrize(
    ("said", "done"),
    [
        ("So now we're going to take the lid off.", [("lift", "lid")]),
        ("You'll need to pry up the back cover with a spudger.", [("lift", "back-cover")]),
        ("The bottom plate just lifts off.", [("lift", "bottom-plate")]),
        ("The lid can be removed now.", [("lift", "lid")]),
        ("Disconnect the battery connector.", [("undo", "battery-connector")]),
        ("There are four screws holding the lid. Take them out.", [("undo", "lid-screws")]),
        ("Use a pick to pry off the lid.", [("lift", "lid")]),
        ("Flip it over.", [("turn", "other-side")]),
        ("Wait two minutes.", [("wait", "2 min")]),
        ("To remove the lid you will want a pick.", []),
        ("Don't remove the lid.", []),
        ("You don't need to remove the lid.", []),
        ("Once the lid is off, look inside.", []),
        ("I already removed the lid.", []),
        ("The battery is glued to the frame.", []),
        ("These pull tabs always snap.", []),
    ],
)
def test_english(said: str, done: list[tuple[str, str]]) -> None:
    assert work(f"0:05 {said}") == done


@pytest.mark.parametrize(
    ("said", "done"),
    [
        ("Dann nehmen wir den Deckel ab.", [("lift", "deckel")]),
        ("Jetzt lässt sich der Akku herausnehmen.", [("lift", "akku")]),
        ("Den Akkustecker abziehen.", [("undo", "akku-stecker")]),
        (
            "Hier sitzen vier Schrauben, die drehen wir heraus. Dann den Deckel abheben.",
            [("undo", "deckel-schrauben"), ("lift", "deckel")],
        ),
        ("Den Deckel nicht abnehmen.", []),
        ("Wenn wir den Deckel abnehmen, sieht man den Akku.", []),
    ],
)
def test_german(said: str, done: list[tuple[str, str]]) -> None:
    assert work(f"0:05 {said}", "de") == done


def test_counts_drives_and_what_is_held_are_taken_over() -> None:
    (joint,) = drafted("0:05 Undo the three T5 screws on the cover.").joints
    assert (joint.kind, joint.count, joint.drive, joint.joins[0]) == ("screws", 3, ("hexalobular", "T5"), "cover")


def test_what_the_screws_hold_is_guessed_from_what_comes_off_and_marked() -> None:
    (joint,) = drafted("0:05 Undo the two screws. 0:09 Now lift the cover off.").joints
    assert joint.joins[0] == "cover" and [guess.said.words for guess in joint.guesses] and joint.drive is None


def test_heat_takes_its_time_and_degrees() -> None:
    draft = drafted("0:05 Heat the back cover to 80 degrees for two minutes.\n0:30 Pry off the back cover.")
    actions = [action for step in draft.steps for action in step.actions]
    assert [(each.verb, each.lasts, each.degrees, each.is_implied) for each in actions] == [
        ("heat", "2 min", 80, False), ("undo", "", None, True), ("lift", "", None, False),
    ]  # fmt: skip


def test_what_is_behind_is_proposed_and_carries_the_words() -> None:
    draft = drafted("0:05 Remove the reflector.\n0:09 Behind the reflector is the module.\n0:12 Lift out the module.")
    module = next(part for part in draft.parts if part.id == "module")
    assert [(other, said.at, said.words) for other, said in module.under] == [
        ("reflector", 9.0, "Behind the reflector is the module.")
    ]


def test_a_proposal_against_the_order_spoken_is_set_aside() -> None:
    draft = drafted("0:02 Lift out the module.\n0:05 Remove the reflector.\n0:09 The module is behind the reflector.")
    module = next(part for part in draft.parts if part.id == "module")
    assert module.under == () and [other for other, _ in module.set_aside] == ["reflector"]


def test_chatter_is_left_out_and_a_warning_is_kept() -> None:
    draft = drafted("0:01 Please subscribe to my channel!\n0:05 Lift the lid off. Be careful, the cable is short.")
    assert [said.words for said in draft.chatter] == ["Please subscribe to my channel!"]
    assert [said.words for step in draft.steps for said in step.cautions] == ["Be careful, the cable is short."]


def test_the_mains_plug_is_a_check() -> None:
    draft = drafted("0:01 Make sure it's unplugged from the wall.\n0:05 Lift the lid off.")
    assert draft.is_mains and draft.steps[0].actions[0].proves == "unplugged"


def test_a_count_said_in_doubt_is_marked() -> None:
    (joint,) = drafted("0:05 There are, I think, seven screws holding the lid. Take them out.").joints
    assert joint.count == 7 and [guess.about for guess in joint.guesses] == ['how many, because it was said with "i think"']


def test_every_list_of_the_lexicons_is_asked_for() -> None:
    package = Path(lexicons.__file__).parent
    code = "".join(path.read_text("utf-8") for path in package.glob("*.py"))
    for language in lexicons.LANGUAGES:
        groups = {
            line.partition(":")[0]
            for line in (package / f"lexicon/{language}.yaml").read_text("utf-8").splitlines()
            if line[:1].isalpha()
        }
        assert {group for group in groups if f'"{group}"' not in code} == set()


def test_a_supply_is_left_to_the_author_and_told() -> None:
    draft = drafted("0:05 Soak the seal in alcohol for two minutes.\n0:30 Pull out the seal.")
    assert [said.words for said in draft.supplies] == ["Soak the seal in alcohol for two minutes."]
