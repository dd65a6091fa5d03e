"""What the page of a part says before the first step."""

from __future__ import annotations

from tests.pages.reading import Page
from tests.pages.sites import demo_site


def told(path: str) -> list[str]:
    text = demo_site()[path]
    assert isinstance(text, str)
    return [line.words.replace("\u00a0", " ") for line in Page(text).all("p", "risks__told")]


def test_it_says_how_deep_the_part_lies_and_what_is_made_new() -> None:
    battery = told("tarn-5/to-battery.html")
    assert any(line.startswith("The battery lies ") and line.endswith(" mm deep, seen from the back.") for line in battery)
    assert "4 other parts come out on the way." in battery or "3 other parts come out on the way." in battery
    assert any("so buy it first" in line and "strips" in line for line in battery)


def test_everything_stands_before_the_first_step() -> None:
    text = demo_site()["tarn-5/to-battery.html"]
    assert isinstance(text, str)
    page = Page(text)
    first = page.all("article", "step")[0].place
    for place in ("before", "bench"):
        assert page.one(place).place < first
    block = next(block for block in page.all("dl", "block"))
    assert {"Steps", "Minutes", "Tools"} <= {term.words for term in page.inside(block, "dt")}
    risks = page.all("span", "risks__signal")
    assert risks and all(risk.place < first for risk in risks)
    assert [line for line in page.all("p", "risks__beside") if page.inside(line, "a")]
