"""What is wrong with a page as it is laid out: wider than the screen, text cut off, one thing upon another."""

from __future__ import annotations

from playwright.sync_api import Page

# Letters stand in the middle of the box that the browser keeps for a line: above and below is room of the typeface. So two
# lines of text lie upon each other when the middles of their boxes do. What sticks to an edge of the screen is laid flat
# first, and what can be opened is opened.
_WRONG = """() => {
  for (const details of document.querySelectorAll("details")) details.open = true;
  const all = [...document.body.querySelectorAll("*")];
  for (const one of all) if (getComputedStyle(one).position === "sticky") one.style.position = "static";
  window.scrollTo(0, 0);
  const width = document.documentElement.clientWidth;
  const wrong = [];
  const spare = document.documentElement.scrollWidth - width;
  if (spare > 0) wrong.push(`the page scrolls sideways by ${spare} px`);

  const isUnseen = (one) => one.closest(".unseen, .skip, template") || !one.checkVisibility({ checkVisibilityCSS: true }) ||
    [...ancestors(one)].some((each) => getComputedStyle(each).clipPath !== "none");
  function* ancestors(one) { for (let each = one; each && each !== document.body; each = each.parentElement) yield each; }
  const rolls = (one) => [...ancestors(one)].some((each) => /auto|scroll/.test(getComputedStyle(each).overflowX));
  const cutter = (one) => [...ancestors(one)].find((each) => /hidden|clip/.test(getComputedStyle(each).overflowX));

  const boxes = [];
  const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (words.nextNode()) {
    const node = words.currentNode;
    const owner = node.parentElement;
    if (!node.data.trim() || owner.closest("svg, script, style") || isUnseen(owner)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const told = node.data.trim().slice(0, 40);
    const edge = cutter(owner)?.getBoundingClientRect();
    for (const rect of range.getClientRects()) {
      if (rect.width < 1 || rect.height < 1) continue;
      if (!rolls(owner) && (rect.left < -1 || rect.right > width + 1)) wrong.push(`beyond the screen: "${told}"`);
      const [top, bottom] = [rect.top + rect.height / 4, rect.bottom - rect.height / 4];
      if (edge && (rect.right > edge.right + 1 || bottom > edge.bottom)) wrong.push(`cut off: "${told}"`);
      boxes.push({ owner, told, isText: true, left: rect.left, right: rect.right, top, bottom });
    }
  }
  for (const one of document.querySelectorAll("svg:not(.photo__marks), img, input, button")) {
    const rect = one.getBoundingClientRect();
    if (isUnseen(one) || rect.width < 2 || rect.height < 2) continue;
    const told = `${one.tagName} ${one.getAttribute("class")}`;
    const { left, right, top, bottom } = rect;
    boxes.push({ owner: one, told, isText: false, left, right, top, bottom });
  }
  boxes.sort((one, other) => one.top - other.top);
  boxes.forEach((one, index) => {
    for (let at = index + 1; at < boxes.length && boxes[at].top < one.bottom - 1; at += 1) {
      const other = boxes[at];
      if (Math.min(one.right, other.right) - Math.max(one.left, other.left) <= 1.5) continue;
      if (Math.min(one.bottom, other.bottom) - other.top <= 1.5) continue;
      if (one.owner.contains(other.owner) && !one.isText || other.owner.contains(one.owner) && !other.isText) continue;
      wrong.push(`"${one.told}" lies upon "${other.told}"`);
    }
  });
  return [...new Set(wrong)];
}"""


def wrong_with(page: Page) -> list[str]:
    """In words, each once; empty where all is well."""
    found: list[str] = page.evaluate(_WRONG)
    return found
