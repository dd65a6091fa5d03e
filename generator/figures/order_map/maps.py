"""Which maps a page holds, so that one fits wherever it is read."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from generator.figures.order_map.boxes import Layout
from generator.figures.order_map.geometry import order_map_of
from generator.figures.order_map.shapes import Form, OrderMap
from generator.orders.waits import Waits
from generator.orders.work import Step, StepId

WIDE_LIMIT = 1430.0
"""Units; 14 of them are 10 pixels where the page is narrowest that still shows the wide map."""

PRINT_LIMIT = 1080.0  # 14 of them are 6.5 pt on the 178 mm between the margins of A4
SCREEN_LIMIT = 900.0  # so high that a map on a wide page is seen with one turn of the wheel at most
NARROW_LIMIT = 500.0  # 16 of them are 10 pixels on a screen of 360


@dataclass(frozen=True, slots=True)
class Shown:
    """A map with the places it is made for, some of `wide`, `narrow` and `print`; scrolled: those it is too wide for."""

    map: OrderMap
    variants: tuple[str, ...]
    scrolled: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Setting:
    """A way to set a map; is_brief: with the shorter words."""

    form: Form
    most_lines: int = 1
    is_brief: bool = False


_ACROSS = tuple(Setting(Form.ACROSS, lines, is_brief) for is_brief in (False, True) for lines in (2, 3))
_DOWN = tuple(Setting(Form.DOWN, lines, is_brief) for is_brief in (False, True) for lines in (2, 3))
_NUMBERS = (Setting(Form.NUMBERS_DOWN), Setting(Form.NUMBERS_ACROSS))
_VARIANTS = (
    ("wide", (*_ACROSS, *_DOWN, *reversed(_NUMBERS)), WIDE_LIMIT),
    ("narrow", _NUMBERS, NARROW_LIMIT),
    ("print", (*_ACROSS, *_DOWN, *_NUMBERS), PRINT_LIMIT),
)


def order_maps_of(
    waits: Waits,
    run: Sequence[Step],
    layout: Layout,
    *,
    brief: Mapping[StepId, str] | None = None,
    chosen: Collection[StepId] = (),
    targets: Collection[StepId] = (),
) -> tuple[Shown, ...]:
    """The maps a page holds: for a wide page from left to right with titles, for a narrow one from top to bottom with
    numbers, for paper with titles in the direction that fits; what does not fit is replaced by the next smaller kind. One
    that is whole on paper and not too tall for a screen stands for both, so that few maps are drawn twice.

    brief: shorter words for steps (see `words.brief_titles`), used where the titles do not fit. See `order_map_of` for
    the rest. A map made for two places is given once.
    """
    made: dict[Setting, OrderMap] = {}

    def made_as(setting: Setting) -> OrderMap:
        if setting not in made:
            said = brief if setting.is_brief else None
            made[setting] = order_map_of(
                waits, run, layout, setting.form, most_lines=setting.most_lines, said=said, chosen=chosen, targets=targets
            )
        return made[setting]

    def is_for_both(setting: Setting) -> bool:
        drawn = made_as(setting)
        return drawn.width <= PRINT_LIMIT and drawn.height <= SCREEN_LIMIT and not drawn.is_cut

    shown: dict[Setting, tuple[list[str], list[str]]] = {}
    titled = (setting for setting in (*_ACROSS, *_DOWN) if brief or not setting.is_brief)
    both = next(filter(is_for_both, titled), None)
    if both:
        shown[both] = (["wide", "print"], [])
    for variant, settings, limit in _VARIANTS:
        if both and variant != "narrow":
            continue
        settings = tuple(setting for setting in settings if brief or not setting.is_brief)
        whole = (setting for setting in settings if made_as(setting).width <= limit and not made_as(setting).is_cut)
        cut = (setting for setting in settings if made_as(setting).width <= limit)
        setting = next(whole, None) or next(cut, None)
        # Paper does not scroll: a map is made as small there as it has to be.
        is_scrolled = setting is None and variant != "print"
        variants, scrolled = shown.setdefault(setting or min(settings, key=lambda setting: made_as(setting).width), ([], []))
        variants.append(variant)
        scrolled += [variant] if is_scrolled else []
    return tuple(Shown(made[setting], tuple(variants), tuple(scrolled)) for setting, (variants, scrolled) in shown.items())
