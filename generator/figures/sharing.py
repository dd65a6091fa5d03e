"""Paths and hatches that a page draws more than once, drawn once and referred to: the same picture in fewer bytes."""

from __future__ import annotations

import re
from collections import Counter

from generator.figures.svg import NAMESPACE, Attribute, element

WORTH_SHARING = 30
"""Characters of a path from which on a reference to it is shorter."""

_PATTERN = re.compile(r'<pattern id="(?P<id>[^"]+)"(?P<rest>.*?</pattern>)')
_PATH = re.compile(r'<path class="(?P<name>[^"]+)"(?P<fill> fill="[^"]+")? d="(?P<d>[^"]+)"/>')


def with_shared_paths(html: str, ident: str = "shape") -> str:
    """The page with every path that stands in it several times drawn once, at the end of its main part.

    A step shows the parts of the step before it, and the way back those of the way out: a guide says the same outlines
    dozens of times. What a path looks like is said where it is shown, by its class, and handed down to the outline. Only
    paths with a class and at most a fill are shared; whatever else a path says is its own. ident: prefix of the ids made.

    >>> page = '<main>' + '<path class="a" d="M0 0h1000v1000h-1000v-1000h10z"/>' * 2 + '</main>'
    >>> with_shared_paths(page).count("h1000v1000"), with_shared_paths(page).count("<use")
    (1, 2)
    """
    if "</main>" not in html:
        return html
    html, hatches = _one_of_each_hatch(html, ident)
    counts = Counter(found["d"] for found in _PATH.finditer(html))
    shared = [d for d, count in counts.items() if count > 1 and len(d) >= WORTH_SHARING]
    end = html.rfind("</main>")
    if not shared and not hatches:
        return html
    names = {d: f"{ident}-{number}" for number, d in enumerate(shared)}

    def referred(found: re.Match[str]) -> str:
        name = names.get(found["d"])
        return f'<use class="{found["name"]}"{found["fill"] or ""} href="#{name}"/>' if name else found[0]

    return f"{_PATH.sub(referred, html[:end])}{_drawn(names, hatches)}\n{_PATH.sub(referred, html[end:])}"


def _one_of_each_hatch(html: str, ident: str) -> tuple[str, tuple[str, ...]]:
    """The page without hatches that differ in nothing but their ids, what they fill leading to one of each; and those."""
    ids: dict[str, list[str]] = {}
    for found in _PATTERN.finditer(html):
        ids.setdefault(found["rest"], []).append(found["id"])
    shared = {rest: f"{ident}-hatch-{number}" for number, rest in enumerate(r for r, same in ids.items() if len(same) > 1)}
    named = {old: shared[rest] for rest, same in ids.items() if rest in shared for old in same}
    if not named:
        return html, ()
    html = _PATTERN.sub(lambda found: "" if found["id"] in named else found[0], html).replace("<defs></defs>", "")
    html = re.sub(r'="url\(#([^)"]+)\)"', lambda found: f'="url(#{named.get(found[1], found[1])})"', html)
    return html, tuple(f'<pattern id="{name}"{rest}' for rest, name in shared.items())


def _drawn(names: dict[str, str], hatches: tuple[str, ...]) -> str:
    # `d` is text of a page already, escaped as it has to be; it holds nothing but letters, digits and blanks.
    paths = (f'<path id="{name}" d="{d}"/>' for d, name in names.items())
    attributes: dict[str, Attribute] = {"xmlns": NAMESPACE, "class": "shared-paths", "width": 0, "height": 0}
    hidden: dict[str, Attribute] = {"aria-hidden": "true", "focusable": "false"}
    return element("svg", attributes | hidden, element("defs", {}, *hatches, *paths))
