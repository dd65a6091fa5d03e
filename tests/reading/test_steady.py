"""A page stands still while it loads: photos have their room before they come, and letters change without moving lines."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser

from tests.reading.built import Built
from tests.reading.serving import served

GREATEST = (
    0.015  # layout shift (W3C, Layout Instability); 0.1 is held to be good. What is left is one line that breaks elsewhere
)
SHIFTS = """() => new Promise(told => {
  const found = [];
  const watch = new PerformanceObserver(list => found.push(...list.getEntries().map(one => one.value)));
  watch.observe({ type: "layout-shift", buffered: true });
  setTimeout(() => told(found), 60);
})"""


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("path", ["tarn-5/guide.html", "tarn-5/to-charging-port.html"])
def test_nothing_moves_while_photos_and_letters_come(
    browser: Browser, built: Built, path: str, width: int, record_property: pytest.RecordProperty
) -> None:
    """Over a slow line, from the first paint to the foot of the page."""
    with served(built.root / "demo") as address:
        context = browser.new_context(
            viewport={"width": width, "height": 800}, service_workers="block", reduced_motion="reduce"
        )
        page = context.new_page()
        late = [".woff2", ".jpg", ".png", ".webp"]

        def delay(route: object) -> None:
            page.wait_for_timeout(250)
            route.continue_()  # type: ignore[attr-defined]

        page.route(lambda url: url.endswith(tuple(late)), delay)
        page.goto(f"{address}{path}")
        for photo in page.locator(".photo__image").all():
            photo.scroll_into_view_if_needed()
            for _ in range(50):
                if photo.evaluate("one => one.complete && one.naturalWidth > 0"):
                    break
                page.wait_for_timeout(50)
            assert photo.evaluate("one => one.naturalWidth") > 0
        assert page.evaluate("document.fonts.ready.then(all => all.size)") > 0
        moved = sum(page.evaluate(SHIFTS))
        record_property("layout shift", moved)
        assert moved < GREATEST
        context.close()


def test_photos_wait_for_their_turn_and_have_their_room(built: Built) -> None:
    photos = re.findall(r"<img[^>]*>", built.text("whole"))
    assert len(photos) == 3
    for photo in photos:
        assert 'loading="lazy"' in photo and re.search(r'width="\d+"', photo) and re.search(r'height="\d+"', photo)


@pytest.mark.parametrize(("weight", "style"), [(400, "normal"), (600, "normal"), (400, "italic")])
def test_faces_that_stand_in_are_as_wide_as_those_that_come(browser: Browser, built: Built, weight: int, style: str) -> None:
    """A line takes the same room, within 3 %, in the faces of the site and in the first of this machine's that stands in."""
    page = browser.new_page()
    page.goto((built.root / "demo/index.html").as_uri())
    widths = page.evaluate(
        """async ([weight, style]) => {
          const faces = getComputedStyle(document.documentElement).getPropertyValue("--serif");
          const others = faces.split(",").filter(name => !/Source Serif|Bench/.test(name)).join(",");
          await document.fonts.load(`${style} ${weight} 20px "Bench Serif"`);
          const names = others.split(",").slice(0, -1);
          await Promise.allSettled(names.map(name => document.fonts.load(`${style} ${weight} 20px ${name}`)));
          return [faces, others].map(family => {
            const line = document.createElement("span");
            line.style.cssText = `position: absolute; white-space: nowrap; font: ${style} ${weight} 20px/1 ${family}`;
            line.textContent = "Undo the four screws of the cover. Lift it out flat, and lay it on a cloth beside the tray.";
            document.body.append(line);
            return line.getBoundingClientRect().width;
          });
        }""",
        [weight, style],
    )
    page.close()
    own, other = widths
    assert own != other, "they are two faces"
    assert abs(other / own - 1) < 0.03
