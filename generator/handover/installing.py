"""What a served site needs to be put on a phone's screen and to work there without a network.

A web app manifest (W3C), a service worker (W3C) that keeps what was read, the page it shows for what it has not kept, and
the icons.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from hashlib import sha256
from io import BytesIO

from generator.figures.svg import NAMESPACE, element
from generator.handover.plain_style import tokens_of
from generator.languages import direction, speaking
from generator.orders.guide import Library
from generator.pages.addresses import MANIFEST
from generator.pages.editions import editions
from generator.pages.theme import Theme, set_page
from generator.pages.unkept import UNKEPT, unkept_page

WORKER = "worker.js"
ICONS = (192, 512)  # px; the two sizes that browsers ask of a site that can be installed
_PLACE = "/* folders */ {}"
_NOT_KEPT = (".zip", ".xml", ".txt", WORKER)
_SIZED = re.compile(r"/media/.+\.jpe?g\.\d+\.(?:avif|webp|jpg)$", re.IGNORECASE)
"""Further formats and sizes of a photo: kept is the one that every browser can show, and the worker gives that for them."""

_KEPT_SHORT = 16  # hexadecimal digits of a version, 64 bits

# The sign: a sheet with three bars, each shorter than the one below it, and the uppermost lifted: taken apart in order.
# x, y, width, height in hundredths of the icon; within the middle 80 %, which is all that a mask may leave.
_BARS = ((22, 66, 56, 11), (22, 48, 42, 11), (22, 23, 28, 11))
_LINE = (22, 41.5, 56, 1.6)


def installing_files(files: Mapping[str, str | bytes], library: Library, theme: Theme) -> dict[str, str | bytes]:
    """The manifest, the worker, its page and the icons. files: the whole site without them."""
    colours = _colours(theme)
    with speaking(library.language):
        unkept = set_page(theme, "unkept", unkept_page(library))
    made: dict[str, str | bytes] = {
        UNKEPT: unkept,
        "icons/sign.svg": icon_as_svg(colours),
        **{f"icons/sign-{size}.png": icon_as_png(size, colours) for size in ICONS},
        **{f"{spoken.folder}{MANIFEST}": _manifest(spoken, colours) for spoken in editions(library)},
    }
    languages = tuple(folder for folder in library.folders.values() if folder)
    return {**made, WORKER: _worker({**files, **made}, theme, languages)}


def folders_of(files: Mapping[str, str | bytes], languages: tuple[str, ...] = ()) -> dict[str, dict[str, object]]:
    """What the worker keeps: for the site's own folder ("") and each device, a version made of the contents, and names.

    languages: the folders of further languages, each with a slash at its end. Each is kept like a device, and each device
    in it; the photos that all languages share are then a folder of their own, and `with` names what has to be kept too.
    Packs, feeds, site maps, licences of fonts and the worker itself are not kept.
    """
    grouped: dict[str, list[str]] = {}
    for path in sorted(files):
        if not path.endswith(_NOT_KEPT) and not _SIZED.search(path):
            grouped.setdefault(_folder_of(path, files, languages), []).append(path)
    found: dict[str, dict[str, object]] = {}
    for folder, paths in sorted(grouped.items()):
        found[folder] = {"version": _version(files, paths), "files": [path.removeprefix(f"{folder}/") for path in paths]}
        language = next((tag for tag in languages if folder.startswith(tag)), "")
        beside = {f"{folder.removeprefix(language)}/media", language.rstrip("/")} & set(grouped) - {"", folder}
        if beside:
            found[folder]["with"] = sorted(beside)
    return found


def _folder_of(path: str, files: Mapping[str, str | bytes], languages: tuple[str, ...]) -> str:
    language = next((tag for tag in languages if path.startswith(tag)), "")
    device = path.removeprefix(language).partition("/")[0]
    if f"{language}{device}/index.html" not in files or f"{device}/" in languages:
        return language.rstrip("/")
    return f"{device}/media" if languages and path.startswith(f"{device}/media/") else f"{language}{device}"


def icon_as_svg(colours: tuple[str, str, str]) -> str:
    paper, ink, accent = colours
    bars = [
        element("rect", {"x": x, "y": y, "width": width, "height": height, "fill": accent if index == 2 else ink})
        for index, (x, y, width, height) in enumerate(_BARS)
    ]
    x, y, width, height = _LINE
    return element(
        "svg",
        {"xmlns": NAMESPACE, "viewBox": "0 0 100 100", "width": 512, "height": 512},
        element("rect", {"width": 100, "height": 100, "fill": paper}),
        element("rect", {"x": x, "y": y, "width": width, "height": height, "fill": ink}),
        *bars,
    )


def icon_as_png(size: int, colours: tuple[str, str, str]) -> bytes:
    """The same sign as pixels, size by size; drawn four times as large and made smaller, so that edges are soft."""
    from PIL import Image, ImageDraw

    scale = size * 4 / 100
    paper, ink, accent = colours
    picture = Image.new("RGB", (size * 4, size * 4), paper)
    drawing = ImageDraw.Draw(picture)
    for (x, y, width, height), colour in ((_LINE, ink), *zip(_BARS, (ink, ink, accent), strict=True)):
        corner = (round(x * scale), round(y * scale))
        drawing.rectangle((*corner, round((x + width) * scale) - 1, round((y + height) * scale) - 1), fill=colour)
    target = BytesIO()
    picture.resize((size, size), Image.Resampling.BOX).save(target, "PNG", optimize=False)
    return target.getvalue()


def _manifest(library: Library, colours: tuple[str, str, str]) -> str:
    home = "../" * library.folder.count("/")
    sizes = [
        {"src": f"{home}icons/sign-{size}.png", "sizes": f"{size}x{size}", "type": "image/png", "purpose": purpose}
        for size in ICONS
        for purpose in ("any", "maskable")
    ]
    told = {
        "name": library.title,
        "short_name": library.title if len(library.title) <= 12 else library.title.split()[0][:12],
        "description": library.about or "",
        "lang": library.language,
        "dir": direction(library.language),
        "start_url": "./index.html",
        "scope": "./",
        "display": "minimal-ui",
        "background_color": colours[0],
        "theme_color": colours[0],
        "icons": [{"src": f"{home}icons/sign.svg", "sizes": "any", "type": "image/svg+xml"}, *sizes],
    }
    return json.dumps(told, ensure_ascii=False, indent=1) + "\n"


def _worker(files: Mapping[str, str | bytes], theme: Theme, languages: tuple[str, ...]) -> str:
    script = dict(theme.files)[WORKER]
    text = script if isinstance(script, str) else script.decode("utf-8")
    return text.replace(_PLACE, json.dumps(folders_of(files, languages), separators=(",", ":")))


def _version(files: Mapping[str, str | bytes], paths: list[str]) -> str:
    digest = sha256()
    for path in paths:
        data = files[path]
        raw = data.encode("utf-8") if isinstance(data, str) else data
        digest.update(f"{path}\0{len(raw)}\0".encode())
        digest.update(raw)
    return digest.hexdigest()[:_KEPT_SHORT]


def _colours(theme: Theme) -> tuple[str, str, str]:
    """Paper, ink and accent as they are in light."""
    tokens = tokens_of(theme)
    return tokens["--paper"], tokens["--ink"], tokens["--acc"]
