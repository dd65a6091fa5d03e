"""Materials as authors name them."""

from __future__ import annotations

METALS = frozenset(
    {"metal", "steel", "stainless", "brass", "bronze", "copper", "aluminium", "aluminum", "iron", "titanium", "zinc"}
)
"""Words that say a tool conducts and is harder than a cell's foil (common practice: no metal at a cell)."""


def is_metal(material: str | None) -> bool:
    """Whether a material as written is a metal.

    >>> is_metal("spring steel"), is_metal("nylon"), is_metal(None)
    (True, False, False)
    """
    return material is not None and any(word in METALS for word in material.lower().replace("-", " ").split())


def is_glass(material: str | None) -> bool:
    return material is not None and "glass" in material.lower().replace("-", " ").split()
