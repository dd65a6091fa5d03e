"""Photos as a page shows them; sizing and checking them is done elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from posixpath import splitext
from urllib.parse import quote

from generator.figures.plan.marks import marks_of, span_label
from generator.figures.svg import number
from generator.media.framing import Window
from generator.media.marking import RING, tags_of
from generator.media.photos import ENDINGS, SizedPhoto
from generator.orders.guide import Guide
from generator.orders.work import Photo, PhotoMark, Step

MEDIA = "media"
SIZES = "(max-width: 760px) calc(100vw - 36px), (max-width: 1120px) calc(100vw - 88px), 490px"
"""How wide a photo stands on the page, by the width of the window."""

HALF_SIZES = "(max-width: 760px) calc(100vw - 36px), (max-width: 1120px) calc(50vw - 51px), 236px"
"""The same for one of a pair, which stand side by side where there is room."""

_TYPES = {"AVIF": "image/avif", "WEBP": "image/webp", "JPEG": "image/jpeg"}
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class PhotoMarkView:
    """A numbered mark; x and y as percentages of the photo.

    dx and dy: of the middle of its number from there; line_x, line_y: where the line to it starts; left, top, width: of the
    number's field. All in px as text ready to be set.
    """

    number: str
    x: str
    y: str
    dx: str = "0"
    dy: str = "0"
    line_x: str = "0"
    line_y: str = "0"
    left: str = "0"
    top: str = "0"
    width: str = "0"


@dataclass(frozen=True, slots=True)
class KeyView:
    """What marks mean: several that mean the same share a line."""

    numbers: str
    words: str


@dataclass(frozen=True, slots=True)
class SourceView:
    """One format of a photo in all its sizes."""

    type: str
    srcset: str


@dataclass(frozen=True, slots=True)
class PhotoView:
    """src relative to the page; width and height in px; sources: formats that a browser may know; is_before: of a pair."""

    src: str
    width: int
    height: int
    alt: str
    credit: str = ""
    marks: tuple[PhotoMarkView, ...] = ()
    key: tuple[KeyView, ...] = ()
    sources: tuple[SourceView, ...] = ()
    srcset: str = ""
    sizes: str = ""
    is_before: bool = False
    is_after: bool = False


def photo_views(guide: Guide, step: Step, ready: Mapping[Photo, SizedPhoto]) -> tuple[PhotoView, ...]:
    """The photos of a step that are ready, in its order.

    A mark on a joint carries the joint's numbers in the plan; any other goes on counting in letters. A mark that lies
    beyond what is shown is left out.
    """
    return tuple(_view(guide, step, photo, ready[photo]) for photo in step.photos if photo in ready)


def unseen_marks(photo: Photo, ready: SizedPhoto) -> tuple[PhotoMark, ...]:
    """The marks of a photo that lie beyond the stretch of it that is shown."""
    return tuple(mark for mark in photo.marks if not _is_inside(_spot(mark, ready)))


def photo_name(photo: Photo) -> str:
    """The name under `media` of the copy that every browser can show.

    >>> from generator.source.places import Place
    >>> photo_name(Photo("a.jpg", None, None, None, (), Place("")))
    'a.jpg'
    """
    stem, ending = splitext(photo.file)
    name = photo.file if ending.lower() in (".jpg", ".jpeg") else f"{photo.file}.jpg"
    if photo.focus is None:
        return name
    cut = sha256(repr((photo.focus, photo.closer)).encode()).hexdigest()[:8]
    return f"{stem}.cut-{cut}.jpg" if ending.lower() in (".jpg", ".jpeg") else f"{photo.file}.cut-{cut}.jpg"


def photo_files(photo: Photo, ready: SizedPhoto) -> dict[str, bytes]:
    """The files of a photo by their names under `media`."""
    name = photo_name(photo)
    return {_file_name(name, kind, width, ready): data for kind, width, data in ready.files}


def _file_name(name: str, kind: str, width: int, ready: SizedPhoto) -> str:
    return name if (kind, width) == ("JPEG", ready.width) else f"{name}.{width}.{ENDINGS[kind]}"


def _view(guide: Guide, step: Step, photo: Photo, ready: SizedPhoto) -> PhotoView:
    name = photo_name(photo)
    marks, key = _marks(guide, step, photo, ready)
    srcsets = {
        kind: ", ".join(f"{quote(f'{MEDIA}/{_file_name(name, kind, width, ready)}')} {width}w" for width in ready.sizes)
        for kind in ENDINGS
    }
    return PhotoView(
        src=quote(f"{MEDIA}/{name}"),
        width=ready.width,
        height=ready.height,
        alt=photo.alt or "",
        credit=", ".join(word for word in (photo.credit, photo.licence) if word),
        marks=marks,
        key=key,
        sources=tuple(SourceView(_TYPES[kind], srcsets[kind]) for kind in ENDINGS if kind != "JPEG"),
        srcset=srcsets["JPEG"],
        sizes=HALF_SIZES if photo.when else SIZES,
        is_before=photo.when == "before",
        is_after=photo.when == "after",
    )


def _spot(mark: PhotoMark, ready: SizedPhoto) -> tuple[float, float]:
    """Where a mark of the whole photo stands on the stretch that is shown, as shares of it."""
    window: Window = ready.window
    width, height = ready.original
    return (mark.x * width - window.left) / window.width, (mark.y * height - window.top) / window.height


def _is_inside(spot: tuple[float, float]) -> bool:
    return 0 <= spot[0] <= 1 and 0 <= spot[1] <= 1


def _marks(
    guide: Guide, step: Step, photo: Photo, ready: SizedPhoto
) -> tuple[tuple[PhotoMarkView, ...], tuple[KeyView, ...]]:
    labelled = [
        (mark, label, spot)
        for mark, label in zip(photo.marks, _labels(guide, step, photo.marks), strict=True)
        if _is_inside(spot := _spot(mark, ready))
    ]
    tags = tags_of([spot for _, _, spot in labelled], [label for _, label, _ in labelled], ready.width / ready.height)
    views: list[PhotoMarkView] = []
    for (_, label, (x, y)), tag in zip(labelled, tags, strict=True):
        length = (tag.dx**2 + tag.dy**2) ** 0.5
        views.append(
            PhotoMarkView(
                number=label,
                x=f"{number(x * 100)}%",
                y=f"{number(y * 100)}%",
                dx=number(tag.dx),
                dy=number(tag.dy),
                line_x=number(tag.dx / length * RING),
                line_y=number(tag.dy / length * RING),
                left=number(tag.dx - tag.width / 2),
                top=number(tag.dy - tag.height / 2),
                width=number(tag.width),
            )
        )
    told: dict[str, list[str]] = {}
    for mark, label, _ in labelled:
        told.setdefault(_words(guide, mark), []).append(label)
    return tuple(views), tuple(KeyView(", ".join(labels), words) for words, labels in told.items())


def _labels(guide: Guide, step: Step, marks: Iterable[PhotoMark]) -> list[str]:
    """The numbers that the plan of the step gives: one mark on a joint has all of its numbers, several share them out."""
    marks = list(marks)
    spans: dict[str, list[tuple[int, int]]] = {}
    for each in marks_of(guide.anatomy, step):
        spans.setdefault(each.joint, []).append((each.first, each.last))
    letters = iter(_LETTERS)
    given: dict[str, int] = {}
    labels = []
    for mark in marks:
        known = spans.get(mark.joint) if mark.joint is not None else None
        if known is None or mark.joint is None:
            labels.append(next(letters, ""))
        elif sum(other.joint == mark.joint for other in marks) == 1:
            labels.append(span_label(known[0][0], known[-1][1]))
        else:
            index = given.get(mark.joint, 0)
            given[mark.joint] = index + 1
            labels.append(span_label(*known[min(index, len(known) - 1)]))
    return labels


def _words(guide: Guide, mark: PhotoMark) -> str:
    if mark.text:
        return mark.text
    if mark.joint is not None:
        return guide.joint(mark.joint).name
    return guide.part(mark.part).name if mark.part is not None else ""
