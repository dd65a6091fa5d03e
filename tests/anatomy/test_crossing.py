"""What crosses the edge of an assembly, found joint by joint, is what its definition says part by part."""

from __future__ import annotations

import pytest

from generator.anatomy.device import crosses
from tests.devices import device


@pytest.mark.parametrize("seed", range(60))
def test_crossing_is_as_defined(seed: int) -> None:
    anatomy = device(seed).anatomy
    for part, members in anatomy.assemblies.items():
        assert anatomy.crossing(part) == tuple(joint for joint in anatomy.joints.values() if crosses(joint, members))
    assert anatomy.crossing(anatomy.base) == ()
