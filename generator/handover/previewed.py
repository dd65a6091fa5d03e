"""A page while it is being written: what was found stands beside its step, and the page asks to be told of changes."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from generator.handover.markup import Tag, with_tags
from generator.pages.addresses import anchor
from generator.rules.finding import Reported

OWN = "/-/"
"""Below this address stands what belongs to the preview and to no site."""

OPEN, CHANGES, STYLE, SCRIPT = f"{OWN}open", f"{OWN}changes", f"{OWN}preview.css", f"{OWN}preview.js"

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
"""As in a site, and also: hearing of changes, and asking for a file to be opened."""

MOST_SHOWN = 200
"""Findings that a page lists; of more it says how many there are."""

_BODY = re.compile(r"<body[^>]*>")
_INSTALL = re.compile(r"<script[^>]*scripts/install\.js[^>]*></script>\s*")


@dataclass(frozen=True, slots=True)
class Desk:
    """What a preview knows beside the page: its secret, its state, and whether files can be opened.

    token: sent with every wish to open a file, so that no other page can send one. version: of what is shown.
    """

    token: str
    version: int
    has_editor: bool


def previewed(
    html: str, desk: Desk, findings: Sequence[Reported], device: str, is_old: bool = False, trouble: str = ""
) -> str:
    """The page with `findings` in it: those of a step at its head, the others on top. device: "" for a shared page.

    is_old: the page is the last that could be made, and the findings say why it is not made anew; trouble: why nothing at
    all could be read.
    """
    page = _BODY.sub(lambda found: found[0] + _panel(desk, findings, is_old, trouble), _INSTALL.sub("", html), count=1)
    own = f'<link rel="stylesheet" href="{STYLE}">\n<script defer src="{SCRIPT}" data-version="{desk.version}"></script>\n'
    page = page.replace("</head>", f"{own}</head>", 1)

    def change(tag: Tag) -> Tag:
        if tag.name == "meta" and tag.get("http-equiv").lower() == "content-security-policy":
            return tag.having(content=POLICY.replace("; frame-ancestors 'none'", ""))
        return tag

    page = with_tags(page, change)
    for step in _steps_of(findings, device):
        page = _beside(page, anchor("step", step), desk, [each for each in findings if _step_of(each, device) == step])
    return _with_openers(page, desk, device)


def nothing_yet(title: str, desk: Desk, findings: Sequence[Reported]) -> str:
    """The page for a device of which nothing could be made so far: what keeps it from being made."""
    head = (
        f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>{escape(title)}</title>\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="color-scheme" content="light dark">\n<link rel="stylesheet" href="/style.css">\n'
        f'<link rel="stylesheet" href="{STYLE}">\n'
        f'<script defer src="{SCRIPT}" data-version="{desk.version}"></script>\n</head>\n'
    )
    words = "Nothing can be shown of it yet." if findings else "There is no such page. It may come with the next change."
    content = f"<h1>{escape(title)}</h1>\n<p>{words}</p>\n{_list(desk, findings)}"
    return f'{head}<body>\n<main class="preview-empty">\n{content}</main>\n</body>\n</html>\n'


def _panel(desk: Desk, findings: Sequence[Reported], is_old: bool, trouble: str) -> str:
    if trouble:
        return f'\n<p class="preview-panel preview-panel--grave">{escape(trouble)}</p>\n'
    if not findings:
        return ""
    grave = sum(found.level == "error" for found in findings)
    words = f"{len(findings)} finding{'s' if len(findings) != 1 else ''}"
    if is_old:
        words = "This is the page as it was before the last change, which cannot be shown"
    is_open = " open" if is_old or grave else ""
    kind = " preview-panel--grave" if grave else ""
    return (
        f'\n<details class="preview-panel{kind}"{is_open}><summary>{words}</summary>\n'
        f"{_list(desk, findings)}</details>\n"
    )


def _list(desk: Desk, findings: Sequence[Reported]) -> str:
    if not findings:
        return ""
    lines = "".join(f"<li>{_finding(desk, found)}</li>\n" for found in findings[:MOST_SHOWN])
    rest = len(findings) - MOST_SHOWN
    more = f"<li>and {rest} more: `partway check` lists them all.</li>\n" if rest > 0 else ""
    return f'<ul class="preview-list">\n{lines}{more}</ul>\n'


def _beside(page: str, id: str, desk: Desk, findings: Sequence[Reported]) -> str:
    note = f'<aside class="preview-note" aria-label="Findings">{_list(desk, findings)}</aside>'
    start = re.compile(rf'<article\b[^>]*\bid="{re.escape(escape(id))}"[^>]*>')
    return start.sub(lambda found: found[0] + note, page, count=1)


def _finding(desk: Desk, found: Reported) -> str:
    finding = found.finding
    rest = " ".join([*finding.why, *([finding.mend.text] if finding.mend is not None else [])])
    place = finding.place
    return (
        f'<span class="preview-level">{escape(found.level)}</span> <strong>{escape(finding.message)}</strong> '
        f"{escape(rest)} {_opener(desk, place.file, place.line, place.column, str(place))}"
    )


def _with_openers(page: str, desk: Desk, device: str) -> str:
    """At the head of every step, what opens its file."""
    if not device:
        return page

    def opened(found: re.Match[str]) -> str:
        step = found["step"]
        file = f"{device}/steps/{step}.md"
        return f'{found[0]}<div class="preview-open">{_opener(desk, file, 1, 1, file)}</div>'

    return re.sub(r'<article\b[^>]*\bid="step-(?P<step>[a-z0-9-]+)"[^>]*>', opened, page)


def _opener(desk: Desk, file: str, line: int, column: int, words: str) -> str:
    """A button that asks for the file to be opened; where there is no editor, the place as text to copy."""
    if not desk.has_editor:
        return f"<code>{escape(words)}</code>"
    fields = {"token": desk.token, "file": file, "line": str(line), "column": str(column)}
    inputs = "".join(f'<input type="hidden" name="{name}" value="{escape(value)}">' for name, value in fields.items())
    return f'<form class="preview-opener" method="post" action="{OPEN}">{inputs}<button>{escape(words)}</button></form>'


def _step_of(found: Reported, device: str) -> str:
    """The step a finding belongs beside; empty for one that belongs on top."""
    folder, _, name = found.finding.place.file.rpartition("/")
    if not device or folder != f"{device}/steps" or not name.endswith(".md"):
        return ""
    return name.removesuffix(".md")


def _steps_of(findings: Sequence[Reported], device: str) -> list[str]:
    return [step for step in dict.fromkeys(_step_of(found, device) for found in findings) if step]
