"""Tray sheets: one page a run of steps and a size of paper, printed at 1:1 so that screws lie as they sat."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.anatomy.parts import PartId
from generator.figures.svg import ident
from generator.figures.tray.drawing import tray_figure
from generator.figures.tray.loose import loose_of
from generator.figures.tray.shapes import A4, LETTER, Leads, Paper
from generator.figures.tray.sheets import tray_sheets
from generator.languages import say, say_many
from generator.orders.guide import Guide
from generator.orders.work import Step
from generator.pages.addresses import DEVICE, WHOLE, route_page
from generator.pages.codes import code_to
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.survey import Survey

PAPERS = (A4, LETTER)


@dataclass(frozen=True, slots=True)
class TrayPage:
    """The sheets of a run on one size of paper; others: the same on other sizes."""

    frame: FrameView
    heading: str
    lede: str
    back_href: str
    others: tuple[Crumb, ...]
    sheets: tuple[Markup, ...]


def tray_name(part: PartId | None, paper: Paper) -> str:
    """The name of a tray page in its device's folder; part: where the run leads, None for the whole guide."""
    return "-".join(["tray", *(["to", part] if part else []), *([] if paper is A4 else [paper.id])]) + ".html"


def tray_links(guide: Guide, run: Sequence[Step], part: PartId | None) -> tuple[Crumb, ...]:
    """Where the tray sheets of a run are; none where nothing comes loose."""
    if not loose_of(guide, run):
        return ()
    return tuple(Crumb(paper.name, tray_name(part, paper)) for paper in PAPERS)


def way_words(guide: Guide, part: PartId | None) -> str:
    return say("the way to the {part}", part=guide.part(part).name) if part else say("the whole guide")


def tray_pages(survey: Survey, run: Sequence[Step], part: PartId | None) -> Iterator[tuple[str, TrayPage]]:
    """The tray pages of a run by their names."""
    guide = survey.guide
    for paper in PAPERS:
        steps = f"{guide.id}/{route_page(part) if part else WHOLE}"
        code = code_to(survey.library, steps)
        sheets = tray_sheets(guide, run, paper, Leads(say("Steps: {place}", place=code.address if code else steps), code))
        if sheets:
            name = tray_name(part, paper)
            way = way_words(guide, part)
            back = route_page(part) if part else WHOLE
            yield (
                name,
                TrayPage(
                    frame=frame_of(
                        survey.library,
                        path=f"{guide.id}/{name}",
                        title=f"{say('Tray sheet on {paper}: {way}', paper=paper.name, way=way)} – {guide.device.name}",
                        description=say(
                            "Where each screw and small part lies, for {way}; {paper}, printed at 100 %.",
                            way=way,
                            paper=paper.name,
                        ),
                        crumbs=(
                            Crumb(survey.library.title, "../index.html"),
                            Crumb(guide.device.name, DEVICE),
                            Crumb(
                                say("To the {part}", part=guide.part(part).name) if part else say("The whole guide"), back
                            ),
                            Crumb(say("Tray sheet"), ""),
                        ),
                        skip=("#sheets", say("Skip to the sheets")),
                    ),
                    heading=say("Tray sheet: {way}", way=way),
                    lede=say_many(
                        "{n}~sheet of {paper}, true to size. Print at 100 % without margins, lay a ruler on the scale at "
                        "the edge, and put every screw down where it came from.",
                        "{n}~sheets of {paper}, true to size. Print at 100 % without margins, lay a ruler on the scale at "
                        "the edge, and put every screw down where it came from.",
                        len(sheets),
                        paper=paper.name,
                    ),
                    back_href=back,
                    others=tuple(Crumb(other.name, tray_name(part, other)) for other in PAPERS if other is not paper),
                    sheets=tuple(Markup(tray_figure(sheet, ident("tray", str(n)))) for n, sheet in enumerate(sheets, 1)),
                ),
            )
