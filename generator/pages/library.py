"""The library page: which devices there are, and what is known about each."""

from __future__ import annotations

from dataclasses import dataclass

from generator.orders.accounts import Accounts, accounts_of, pages_of
from generator.orders.guide import Guide, Library
from generator.pages.addresses import LIBRARY, route_page
from generator.pages.frame import Crumb, Fact, FrameView, frame_of
from generator.pages.typography import capital, counted, held


@dataclass(frozen=True, slots=True)
class PartLink:
    label: str
    href: str


@dataclass(frozen=True, slots=True)
class DeviceCard:
    id: str
    name: str
    href: str
    maker: str
    about: str
    figures: tuple[Fact, ...]
    parts: tuple[PartLink, ...]
    guide_href: str


@dataclass(frozen=True, slots=True)
class LibraryPage:
    frame: FrameView
    title: str
    about: str
    devices: tuple[DeviceCard, ...]
    nothing: str


def library_page(library: Library) -> LibraryPage:
    about = _about(library)
    return LibraryPage(
        frame=frame_of(
            library,
            path=LIBRARY,
            title=library.title,
            description=about,
            crumbs=(Crumb(library.title, ""),),
            skip=("#devices", "Skip to the devices"),
        ),
        title=library.title,
        about=about,
        devices=tuple(_card(guide) for guide in library.guides),
        nothing="" if library.guides else "There is no guide here yet.",
    )


def _about(library: Library) -> str:
    """What this is, in sentences that are facts."""
    told = [library.about] if library.about else []
    if library.guides:
        steps = sum(len(guide.order) for guide in library.guides)
        pages = sum(len(pages_of(guide)) for guide in library.guides)
        told.append(
            f"{counted(len(library.guides), 'device', 'devices')}, {counted(steps, 'step', 'steps')}, "
            f"{counted(pages, 'part', 'parts')} with a page of {'its' if pages == 1 else 'their'} own."
        )
    if library.author:
        told.append(f"Written by {library.author}.")
    return " ".join(told)


def _card(guide: Guide) -> DeviceCard:
    device = guide.device
    accounts = accounts_of(guide, guide.order)
    kind = device.kind if device.kind != "other" else ""
    return DeviceCard(
        id=f"device-{guide.id}",
        name=device.name,
        href=f"{guide.id}/index.html",
        maker=capital(", ".join(part for part in (kind, f"by {device.maker}" if device.maker else "") if part)),
        about=held(device.about or ""),
        figures=(
            Fact("Parts", str(len(guide.anatomy.parts))),
            Fact("Steps", f"{len(guide.order)} out, {len(guide.order)} back"),
            Fact("Joints", str(accounts.joint_count)),
            Fact("Screws", _screws(accounts)),
        ),
        parts=tuple(PartLink(guide.part(part).name, f"{guide.id}/{route_page(part)}") for part in pages_of(guide)),
        guide_href=f"{guide.id}/guide.html",
    )


def _screws(accounts: Accounts) -> str:
    sizes = len(accounts.screws)
    if not sizes:
        return "none"
    return f"{accounts.screw_count}, of {counted(sizes, 'size', 'sizes')}"
