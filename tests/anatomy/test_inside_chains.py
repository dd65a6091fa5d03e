"""Chains of `inside`: cut where they bite their own tail, walked once however long they are."""

from __future__ import annotations

from pathlib import Path
from time import process_time

from generator.orders.guide import Guide
from generator.rules.ref.inside_itself import inside_itself
from tests.written import library_of

LONG = 3000  # parts
SOON = 10.0  # s of the processor; walking the whole chain anew from every part takes five times that


def guide_with(folder: Path, inside: list[tuple[str, str]]) -> Guide:
    parts = "\n".join(f"  {part}: {{inside: {outer}}}" for part, outer in inside)
    anatomy = f"base: tub\nparts:\n  tub: {{}}\n{parts}\n"
    (guide,) = library_of(folder, {"box/device.yaml": "name: Box", "box/anatomy.yaml": anatomy}).guides
    return guide


def test_a_long_chain_is_kept_whole(tmp_path: Path) -> None:
    before = process_time()
    guide = guide_with(tmp_path, [(f"p{n}", f"p{n + 1}" if n < LONG else "tub") for n in range(LONG + 1)])
    assert not guide.inside_itself and len(guide.anatomy.assembly(guide.anatomy.base)) == LONG + 2
    assert process_time() - before < SOON


def test_a_ring_is_cut_once_and_told_short(tmp_path: Path) -> None:
    guide = guide_with(tmp_path, [(f"p{n}", f"p{(n + 1) % LONG}") for n in range(LONG)])
    (found,) = guide.inside_itself
    assert (found.chain[0], found.chain[-1], len(found.chain)) == ("p0", "p0", LONG + 1)
    (finding,) = inside_itself(guide)
    assert f"that inside {LONG - 6} others, that inside" in finding.message
    assert finding.message.endswith("that inside the p0.") and len(finding.message) < 200


def test_what_leads_into_a_ring_is_left_alone(tmp_path: Path) -> None:
    guide = guide_with(tmp_path, [("tail", "a"), ("a", "b"), ("b", "a"), ("other", "tail")])
    assert [found.chain for found in guide.inside_itself] == [("a", "b", "a")]
    assert guide.anatomy.parts["tail"].inside == "a" and guide.anatomy.parts["b"].inside == "a"  # type: ignore[index]
