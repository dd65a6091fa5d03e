"""A page gone through with the Tab key: what the focus comes to, in what order, and whether the eye can see it there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Page

MOST = 600
"""Presses of a key after which something holds the focus in a ring."""

# An outline of 2 px is enough; what has none is held against what it looks like without the focus, with all that is in it.
# Of a link that is broken over two lines each piece counts.
_HERE = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const seen = () => {
    const { outlineStyle, outlineWidth, outline } = getComputedStyle(one);
    const within = [one, ...one.querySelectorAll("*")].map((each) => getComputedStyle(each));
    const looks = within.map((style) => `${style.boxShadow} ${style.backgroundColor} ${style.stroke} ${style.strokeWidth}`);
    return { outline: outlineStyle === "none" || parseFloat(outlineWidth) < 2 ? "" : outline, others: looks.join() };
  };
  const rects = [...one.getClientRects()].filter((rect) => rect.width > 0 && rect.height > 0);
  const inside = (rect) => rect.bottom > 0 && rect.top < innerHeight && rect.right > 0 && rect.left < innerWidth;
  const covers = (rect) => {
    const spots = [.1, .5, .9].map((part) => [rect.left + rect.width * part, rect.top + rect.height / 2]);
    return spots.every(([x, y]) => {
      const top = document.elementFromPoint(x, y);
      return top && !one.contains(top) && !top.contains(one) && !one.closest("label")?.contains(top);
    });
  };
  const all = [...document.querySelectorAll("*")];
  const words = (one.closest("label") || one).textContent.trim().slice(0, 40);
  const told = {
    index: all.indexOf(one),
    words: `${one.localName} ${one.getAttribute("href") || one.id || words}`,
    href: one.getAttribute("href") || "",
    outline: seen().outline,
    isInside: rects.some(inside),
    isCovered: rects.filter(inside).length > 0 && rects.filter(inside).every(covers),
  };
  const focused = seen().others;
  if (!told.outline) {
    one.blur();
    const blurred = seen().others;
    one.focus({ preventScroll: true, focusVisible: true });
    if (blurred !== focused) told.outline = "another look";
  }
  return told;
}"""

# Whatever can be worked, by its kind.
_WORKABLE = """() => {
  const all = [...document.querySelectorAll("*")];
  const isSeen = (one) => one.checkVisibility({ checkVisibilityCSS: true }) && one.getClientRects().length > 0;
  return all
    .filter((one) => one.matches("a[href], button, input, select, textarea, summary, [tabindex], [onclick]"))
    .filter((one) => isSeen(one) && !one.disabled)
    .map((one) => ({ index: all.indexOf(one), href: one.getAttribute("href") || "", words: one.outerHTML.slice(0, 80) }));
}"""

_UNFOCUSED = """function() {
  return this.matches("a[*|href], button, input, summary, label, [tabindex]") ? "" : this.outerHTML.slice(0, 80);
}"""


@dataclass(frozen=True, slots=True)
class Stop:
    """Where the focus is.

    index: of the element in the document; outline: how the focus shows, empty where it does not; is_inside: on the screen;
    is_covered: all of it behind something else.
    """

    index: int
    words: str
    href: str
    outline: str
    is_inside: bool
    is_covered: bool


def here(page: Page) -> Stop | None:
    """Where the focus is; None where nothing on the page has it."""
    told: dict[str, Any] | None = page.evaluate(_HERE)
    if told is None:
        return None
    seen = (told["outline"], told["isInside"], told["isCovered"])
    return Stop(told["index"], told["words"], told["href"], *seen)


def pressed(page: Page, key: str = "Tab") -> Stop | None:
    page.keyboard.press(key)
    return here(page)


def round_of(page: Page) -> list[Stop]:
    """Every stop from the top to where the focus leaves the page or begins again; a trap ends at `MOST` stops.

    A page may begin further down, at the part that its address names or in the field that it is there for: the round goes
    on over the end of the page until it is closed, and is told from the top.
    """
    stops: list[Stop] = []
    top = 0
    for _ in range(MOST):
        stop = pressed(page)
        if stop is None:
            top = len(stops)
        elif stops and stop.index == stops[0].index:
            break
        else:
            stops.append(stop)
    return stops[top:] + stops[:top]


def wrong_with(stops: list[Stop]) -> list[str]:
    """In words what a person who sees the page and uses keys alone would stumble over."""
    wrong = [f"a ring: {stops[-1].words}"] if len(stops) >= MOST else []
    for at, stop in enumerate(stops):
        wrong += [f"cannot be seen to have the focus: {stop.words}"] if not stop.outline else []
        wrong += [f"not on the screen: {stop.words}"] if not stop.is_inside else []
        wrong += [f"behind something else: {stop.words}"] if stop.is_covered else []
        wrong += [f"comes late: {stop.words}"] if at and stop.index < stops[at - 1].index else []
    return wrong


def not_reached(page: Page, stops: list[Stop]) -> list[str]:
    """What can be worked with a pointer and has no equal among the stops: nothing else leads where it leads."""
    reached, hrefs = {stop.index for stop in stops}, {stop.href for stop in stops}
    found: list[dict[str, Any]] = page.evaluate(_WORKABLE)
    return [one["words"] for one in found if one["index"] not in reached and (not one["href"] or one["href"] not in hrefs)]


def listeners_without_focus(page: Page) -> list[str]:
    """Elements on which the page listens for a pointer, though neither they nor what they label can have the focus."""
    session = page.context.new_cdp_session(page)
    root = session.send("Runtime.evaluate", {"expression": "document.querySelectorAll('body *')"})["result"]["objectId"]
    members = session.send("Runtime.getProperties", {"objectId": root, "ownProperties": True})["result"]
    wrong = []
    for member in members:
        ident = member.get("value", {}).get("objectId") if member["name"].isdigit() else None
        if ident is None:
            continue
        heard = session.send("DOMDebugger.getEventListeners", {"objectId": ident})["listeners"]
        if any(one["type"] in ("click", "pointerdown", "mousedown", "touchstart") for one in heard):
            asked = {"objectId": ident, "functionDeclaration": _UNFOCUSED}
            told = session.send("Runtime.callFunctionOn", asked)["result"]["value"]
            wrong += [told] if told else []
    session.detach()
    return wrong
