"""Numbers and lists set for reading: figures held to their units, ranges with their dash, film times, minutes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Literal

from generator.languages import decimal_mark, list_of, say, say_many

NO_BREAK = "\u00a0"
TIMES = f"{NO_BREAK}×{NO_BREAK}"
DASH = "\u2060–\u2060"
"""The dash of a range, held to its numbers."""

_UNIT = r"(?:mm|cm|m|µm|s|min|h|°C|%|V|A|mA|mAh|Wh|W|N|N·m|µF|kg|g|times)"
_LOOSE = re.compile(rf"(?<=[0-9]) (?={_UNIT}(?![\w·])|×)|(?<=[€×]) (?=[0-9])")
_LOOSE_OUTSIDE_TAGS = re.compile(rf"<[^>]*>|{_LOOSE.pattern}")


def held(text: str) -> str:
    """A text as written, its numbers held to their units.

    >>> held("suction cup, 30 mm"), held("pad, 8 × 8 mm")
    ('suction cup, 30\\xa0mm', 'pad, 8\\xa0×\\xa08\\xa0mm')
    """
    return _LOOSE.sub(NO_BREAK, text)


def held_html(html: str) -> str:
    """HTML with the numbers of its text held to their units; tags are left alone.

    >>> held_html('<p title="30 mm">30 mm</p>')
    '<p title="30 mm">30\\xa0mm</p>'
    """
    return _LOOSE_OUTSIDE_TAGS.sub(lambda found: found[0] if found[0].startswith("<") else NO_BREAK, html)


def measure(value: float, places: int = 0) -> str:
    """A number with at least `places` decimals and no more than it has, at most four; a proper minus.

    >>> measure(5.0, 1), measure(0.0185), measure(-2)
    ('5.0', '0.0185', '−2')
    """
    text = f"{abs(value):.4f}".rstrip("0")
    whole, _, decimals = text.partition(".")
    decimals = decimals.ljust(places, "0")
    sign = "−" if value < 0 and text.strip("0.") else ""
    return f"{sign}{whole}{decimal_mark()}{decimals}" if decimals else f"{sign}{whole}"


def exact(value: Decimal) -> str:
    """An exact number as it was written, with the language's decimal mark."""
    return str(value).replace(".", decimal_mark())


def quantity(value: float, unit: str, places: int = 0) -> str:
    """A number and its unit, which stay on one line."""
    return f"{measure(value, places)}{NO_BREAK}{unit}"


def counted(number: int, one: str, many: str) -> str:
    """`1 screw`, `5 screws`, the number held to its word, which follows the language's plural forms."""
    return f"{number}{NO_BREAK}{say_many(one, many, number)}"


def listed(words: Sequence[str], last: Literal["and", "or"] = "and") -> str:
    """`a`, `a and b`, `a, b and c`; nothing for no words."""
    return list_of(words, last)


def numbers(values: Iterable[int]) -> str:
    """Whole numbers in order, runs of three and more drawn together.

    >>> numbers([7, 2, 3, 4, 9, 10]).replace(DASH, "–")
    '2–4, 7, 9, 10'
    """
    runs: list[list[int]] = []
    for value in sorted(set(values)):
        if runs and value == runs[-1][-1] + 1:
            runs[-1].append(value)
        else:
            runs.append([value])
    return ", ".join(f"{run[0]}{DASH}{run[-1]}" if len(run) > 2 else ", ".join(str(value) for value in run) for run in runs)


def steps_words(values: Iterable[int]) -> str:
    """`step 4`, `steps 4, 6`; nothing where there are none."""
    found = sorted(set(values))
    if not found:
        return ""
    return say_many("step~{numbers}", "steps~{numbers}", len(found), numbers=numbers(found))


def steps_out(shown: int, order: int) -> str:
    """How many steps a page has: `8 out, 8 back`, or `4 of 8, then it stops` where it does not go to the end."""
    if shown == order:
        return say("{number} out, {number} back", number=shown)
    return say("{number} of {all}, then it stops", number=shown, all=order)


def about_minutes(seconds: int) -> str:
    """A measured time as a reader needs it: whole minutes, half up.

    >>> about_minutes(1500).replace(NO_BREAK, " "), about_minutes(20).replace(NO_BREAK, " ")
    ('about 25 min', 'under 1 min')
    >>> about_minutes(4700).replace(NO_BREAK, " "), about_minutes(7200).replace(NO_BREAK, " ")
    ('about 1 h 18 min', 'about 2 h')
    """
    if seconds < 30:
        return say("under~1~min")
    hours, minutes = divmod((seconds + 30) // 60, 60)
    parts = [f"{hours}{NO_BREAK}h"] if hours else []
    if minutes or not hours:
        parts.append(f"{minutes}{NO_BREAK}min")
    return say("about~{time}", time=NO_BREAK.join(parts))


def duration(seconds: tuple[int, int]) -> str:
    """A time to keep something up, a range in seconds: `45 s`, `3–4 min`.

    >>> duration((180, 240)).replace(NO_BREAK, " ").replace(DASH, "–"), duration((30, 30)).replace(NO_BREAK, " ")
    ('3–4 min', '30 s')
    """
    low, high = seconds
    unit, size = next((u, s) for u, s in (("h", 3600), ("min", 60), ("s", 1)) if not low % s and not high % s)
    span = str(low // size) if low == high else f"{low // size}{DASH}{high // size}"
    return f"{span}{NO_BREAK}{unit}"


def times(number: int) -> str:
    """How often: `never`, `once`, `twice`, `5 times`."""
    if number < 3:
        return (say("never"), say("once"), say("twice"))[number]
    return say_many("{n}~time", "{n}~times", number)


def quoted(text: str) -> str:
    """A title within a sentence, between the language's marks."""
    return say("“{title}”", title=text)


def capital(text: str) -> str:
    """The text with a capital first letter."""
    return text[:1].upper() + text[1:]


def sentence(text: str) -> str:
    """The text with a capital first letter and a stop at its end.

    >>> sentence("the screen stays dark")
    'The screen stays dark.'
    """
    text = capital(text.strip())
    return text if text.endswith((".", "!", "?", ":")) else f"{text}."
