"""Prose: where every reference stands, what is refused, and what comes out as HTML."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.source.faults import BadPath, RawHtml, TooBig
from generator.source.places import Place
from generator.source.prose import Prose, read_prose, render_prose, split_refitting

TEXT = """\
Wärm it 😀 *until [it](part:back) is* warm. Slide the [opening
pick](tool:opening-pick) in, **[now](joint:glue) and [then](joint:glue)**.

> - Lift é😀 [bar](Joint:s)
>   and \\* [`code` &amp; *more*](step:a "title")
1. One
   - [deep](supply:wipe), <part:upper-cover>

# Head [h](supply:h) #

| a\\|b | [c](part:d) |
|---|:-:|
| x\\|[y](part:z) | [x](part:x) |

[q][ref] and [ref] and ![see](media/a%20b.jpg)

[ref]: tool:quill
`[no](part:code)` \\[no](part:escaped)
"""

REFERENCES = [
    ("part", "back", "it", "[it](part:back)"),
    ("tool", "opening-pick", "opening pick", "[opening\npick](tool:opening-pick)"),
    ("joint", "glue", "now", "[now](joint:glue)"),
    ("joint", "glue", "then", "[then](joint:glue)"),
    ("joint", "s", "bar", "[bar](Joint:s)"),
    ("step", "a", "code & more", '[`code` &amp; *more*](step:a "title")'),
    ("supply", "wipe", "deep", "[deep](supply:wipe)"),
    ("part", "upper-cover", "upper cover", "<part:upper-cover>"),
    ("supply", "h", "h", "[h](supply:h)"),
    ("part", "d", "c", "[c](part:d)"),
    ("part", "z", "y", "[y](part:z)"),
    ("part", "x", "x", "[x](part:x)"),
    ("tool", "quill", "q", "[q][ref]"),
    ("tool", "quill", "ref", "[ref]"),
]


@pytest.mark.parametrize("text", [TEXT, TEXT.replace("\n", "\r\n"), "\ufeff" + TEXT])
def test_every_reference_has_its_place(text: str) -> None:
    prose = read_prose(text, "f.md", 12)
    lines = TEXT.split("\n")
    found = [(each.scheme, each.target, each.text, cut(lines, each.place, 12)) for each in prose.references]
    assert found == REFERENCES
    assert prose.faults == ()
    assert [(each.path, each.alt, cut(lines, each.place, 12)) for each in prose.pictures] == [
        ("media/a b.jpg", "see", "![see](media/a%20b.jpg)")
    ]
    assert prose.place == Place("f.md", 12, 1, 12 + len(lines) - 1, 1)


def test_sentences_have_their_places_and_no_markup() -> None:
    words = "Warm the [edge](part:back) (to 60 °C) *slowly*. Slide &amp; push\nthe `flat` pick in!"
    text = f"# Not this one\n\n{words}\n\n- Lift.\n"
    prose = read_prose(text, "f.md")
    lines = text.split("\n")
    assert [(each.text, each.words, cut(lines, each.place)) for each in prose.sentences] == [
        ("Warm the edge slowly.", 4, "Warm the [edge](part:back) (to 60 °C) *slowly*."),
        ("to 60 °C", 2, "to 60 °C"),
        ("Slide & push the flat pick in!", 6, "Slide &amp; push\nthe `flat` pick in!"),
        ("Lift.", 1, "Lift."),
    ]


def test_tables_and_code_hold_no_sentences() -> None:
    assert read_prose("| a |\n|---|\n| b c. |\n\n    code here\n\n```\nmore\n```\n", "f.md").sentences == ()


@pytest.mark.parametrize(
    ("link", "reason"),
    [
        ("[a](javascript:alert)", "links that start with javascript: are not allowed"),
        ("[a](JAVASCRIPT:alert)", "links that start with javascript: are not allowed"),
        ("[a](java&#10;script:x)", "it holds a control character"),
        ("[a](%6aavascript:x)", "links that start with javascript: are not allowed"),
        ("[a](data:image/png;base64,x)", "links that start with data: are not allowed"),
        ("[a](file:///etc/passwd)", "links that start with file: are not allowed"),
        ("[a](ftp://a/b)", "links that start with ftp: are not allowed"),
        ("<blob:abc>", "links that start with blob: are not allowed"),
        ("[a](//host/x)", "it starts at the root of the disk"),
        ("[a](/x)", "it starts at the root of the disk"),
        ("[a](\\\\\\\\host)", "it is written with a backslash; paths here have forward slashes"),
        ("[a](../x.md)", "it leaves the folder with .."),
        ("[a](x/%2e%2e/y)", "it leaves the folder with .."),
        ("[a](C:x)", "links that start with c: are not allowed"),
        ("[a]()", "it is empty"),
        ("[a](part:)", "it names nothing after part:"),
        ("[a](https://u:p@h/)", "it carries a name or password"),
        ("[a](https:x)", "it names no host"),
        ("![a](https://example.org/a.jpg)", "a picture has to lie in the device's folder"),
        ("![a](//example.org/a.jpg)", "a picture has to lie in the device's folder"),
        ("![a](data:image/png;base64,x)", "a picture has to lie in the device's folder"),
        ("![a](part:back)", "a picture has to lie in the device's folder"),
        ("![a](../a.jpg)", "it leaves the folder with .."),
    ],
)
def test_refused_links_are_told_and_not_made(link: str, reason: str) -> None:
    prose = read_prose(f"See {link} there.", "f.md")
    (fault,) = prose.faults
    assert isinstance(fault, BadPath)
    assert fault.reason == reason
    assert cut([prose.markdown], fault.place) == link
    assert prose.references == () == prose.pictures
    html = render_prose(prose, lambda scheme, target: "x.html")
    assert "href" not in html
    assert "<img" not in html


def test_links_that_are_allowed() -> None:
    text = "[a](https://example.org/a?b=c#d) [b](http://example.org) <mailto:a@example.org> [c](#top) [d](notes/x.md)"
    prose = read_prose(text, "f.md")
    assert prose.faults == ()
    assert render_prose(prose, lambda scheme, target: None).count("<a href=") == 5


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("A <b>bold</b> word.", [("<b>", "b")]),
        ("<div onclick='x'>\nmore\n</div>\n", [("<div onclick='x'>", "div")]),
        ("Text\n\n  <!-- gone -->\n", [("<!-- gone -->", "comment")]),
        ("a </i> b", [("</i>", "i")]),
        ("> <script>x</script>", [("<script>x</script>", "script")]),
        ("| <br/> |\n|---|\n", [("<br/>", "br")]),
        ("1 < 2, `<b>`, \\<b>, <https://example.org>", []),
    ],
)
def test_raw_html_is_told(text: str, told: list[tuple[str, str]]) -> None:
    prose = read_prose(text, "f.md")
    lines = text.split("\n")
    faults = [fault for fault in prose.faults if isinstance(fault, RawHtml)]
    assert [(cut(lines, fault.place), fault.tag) for fault in faults] == told
    assert len(faults) == len(prose.faults)
    assert allowed(render_prose(prose, lambda scheme, target: None))


def test_references_become_links_or_plain_text() -> None:
    prose = read_prose('Take the [*flat* pick](tool:pick "t") to the [back](part:back), <step:open-it>.', "f.md")
    asked: list[tuple[str, str]] = []

    def link_of(scheme: str, target: str) -> str | None:
        asked.append((scheme, target))
        return f'{target}.html?a="&b' if scheme != "part" else None

    assert render_prose(prose, link_of) == (
        '<p>Take the <a href="pick.html?a=&quot;&amp;b" title="t"><em>flat</em> pick</a> to the <span>back</span>, '
        '<a href="open-it.html?a=&quot;&amp;b">open it</a>.</p>\n'
    )
    assert asked == [("tool", "pick"), ("part", "back"), ("step", "open-it")]


def test_plain_markdown_stays_plain_markdown() -> None:
    prose = read_prose("- ~~a~~ **b**\n\n![alt *x*](media/a.jpg)\n", "f.md")
    assert render_prose(prose, lambda scheme, target: None) == (
        '<ul>\n<li><s>a</s> <strong>b</strong></li>\n</ul>\n<p><img src="media/a.jpg" alt="alt x" /></p>\n'
    )


@pytest.mark.parametrize(
    ("body", "main", "refitting"),
    [
        ("Lift.\n\n## Refitting\nPress.\n", "Lift.\n", ("Press.\n", 3)),
        ("Lift.\n## refitting ##\nPress.\n\n### How\nx\n", "Lift.\n", ("Press.\n\n### How\nx\n", 2)),
        ("## Refitting\nPress.\n## More\nx\n", "\n\n## More\nx\n", ("Press.", 1)),
        ("Lift.\n\nRefitting\n---\nPress.", "Lift.\n", ("Press.", 4)),
        ("Lift.\n### Refitting\nx\n", "Lift.\n### Refitting\nx\n", None),
        ("```\n## Refitting\n```\n", "```\n## Refitting\n```\n", None),
        ("> ## Refitting\n", "> ## Refitting\n", None),
        ("## Refitting", "", ("", 1)),
        ("", "", None),
    ],
)
def test_what_stands_under_refitting(body: str, main: str, refitting: tuple[str, int] | None) -> None:
    assert split_refitting(body) == (main, refitting)
    lines = body.split("\n")
    if refitting is not None:
        assert lines[refitting[1] : refitting[1] + 1] == refitting[0].split("\n")[:1] or refitting[0] == ""
    for number, line in enumerate(main.split("\n")):
        assert line in ("", lines[number])


pieces = st.sampled_from(
    [
        "a",
        "b c. ",
        " ",
        "\n",
        "\n\n",
        "[",
        "]",
        "(",
        ")",
        "![",
        "](part:x)",
        "](x)",
        "](javascript:y)",
        "](//h)",
        "<",
        ">",
        "<b>",
        "</b>",
        "<!--",
        "*",
        "**",
        "_",
        "`",
        "~~",
        "|",
        "\n|---|---|\n",
        "> ",
        "- ",
        "1. ",
        "#",
        "\\",
        "&amp;",
        "&#58;",
        "<part:x>",
        "\t",
        "    ",
        "[r]",
        "\n[r]: tool:y\n",
        "é",
        "😀",
        '"',
        "'",
        "\r",
        "\x00",
        "%2e",
        ":",
        "/",
        "..",
        "<a href='javascript:x'>",
        "\n---\n",
        "!",
    ]
)


@given(st.lists(pieces, max_size=40).map("".join) | st.text(max_size=60))
def test_no_text_raises_and_nothing_but_markdown_comes_out(text: str) -> None:
    prose = read_prose(text, "f.md")
    lines = prose.markdown.split("\n")
    for reference in prose.references:
        written = cut(lines, reference.place)
        assert written[0] in "[<", written
        assert written[-1] in ")]>", written
    found = [each.place for each in prose.references] + [each.place for each in prose.sentences]
    for place in found + [each.place for each in prose.faults] + [each.place for each in prose.pictures]:
        assert 1 <= place.line <= place.end_line <= len(lines)
        assert 1 <= place.column <= len(lines[place.line - 1]) + 1
        assert place.end_column <= len(lines[place.end_line - 1]) + 1
    assert allowed(render_prose(prose, lambda scheme, target: f"{scheme}.html" if target == "x" else None))
    main, refitting = split_refitting(text)
    assert refitting is not None or main == prose.markdown or "efitting" not in text


def test_hostile_lengths_are_read_in_time() -> None:
    for text in (
        "[" * 20_000,
        "<" * 20_000,
        "> " * 5_000,
        "- " * 5_000,
        "*a " * 10_000,
        "(" * 20_000,
        "`" * 9_999,
        "![" * 10_000,
    ):
        assert isinstance(read_prose(text, "f.md"), Prose)


class Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.is_allowed = True

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        known = [
            "p",
            "a",
            "span",
            "em",
            "strong",
            "s",
            "code",
            "pre",
            "blockquote",
            "ul",
            "ol",
            "li",
            "h1",
            "h2",
            "h3",
            "h4",
            "h5",
            "h6",
            "hr",
            "br",
            "img",
            "table",
            "thead",
            "tbody",
            "tr",
            "th",
            "td",
        ]
        self.is_allowed &= tag in known
        for name, value in attrs:
            self.is_allowed &= name in ("href", "src", "alt", "title", "start", "class", "style")
            if name == "style":
                self.is_allowed &= value in ("text-align:left", "text-align:right", "text-align:center")
            if name in ("href", "src"):
                head = (value or "").split(":")[0] if ":" in (value or "").split("/")[0] else ""
                self.is_allowed &= head in ("", "http", "https", "mailto") and not (value or "").startswith(("//", "\\"))

    def handle_comment(self, data: str) -> None:
        self.is_allowed = False


def allowed(html: str) -> bool:
    tags = Tags()
    tags.feed(html)
    tags.close()
    return tags.is_allowed


def cut(lines: list[str], place: Place, first_line: int = 1) -> str:
    start, end = place.line - first_line, place.end_line - first_line
    if start == end:
        return lines[start][place.column - 1 : place.end_column - 1]
    return "\n".join([lines[start][place.column - 1 :], *lines[start + 1 : end], lines[end][: place.end_column - 1]])


@pytest.mark.parametrize("written", ["a.jpg", "media/a.jpg"])
def test_a_picture_is_found_in_media_however_it_is_written(written: str) -> None:
    html = render_prose(read_prose(f"![a lid]({written})", "d/steps/a.md"), lambda scheme, target: None)
    assert 'src="media/a.jpg"' in html


def test_an_address_that_is_used_over_and_over_is_bounded() -> None:
    """A reference definition stands once and is copied into the page at each of its uses."""
    address = f"https://example.org/{'x' * 1900}"
    title = f"https://example.org '{'x' * 1900}'"
    for definition in (address, title):
        few, many = (read_prose(f"[r]: {definition}\n\n{'[r] ' * uses}", "f.md") for uses in (20, 2000))
        assert not few.faults
        (found,) = many.faults
        assert isinstance(found, TooBig) and found.place.line == 3
