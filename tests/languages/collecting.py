"""Every text of the program that readers see, collected with Babel from the code and the templates."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.pofile import read_po, write_po

HOME = Path(__file__).parent.parent.parent
CATALOGUES = HOME / "generator" / "languages" / "catalogues"
TEMPLATE = CATALOGUES / "partway.pot"
KEYWORDS: dict[str, Any] = {
    "say": (1,),
    "sayMany": (1, 2),
    "say_as": ((1, "c"), 2),
    "say_many": (1, 2),
    "counted": (2, 3),
    "later": (1,),
}


def python_texts(file: Any, keywords: Any, comment_tags: Any, options: Any) -> Iterator[tuple[int, str, Any, list[str]]]:
    """An extraction method for Babel that reads Python's own syntax tree, so that calls within f-strings are seen too."""
    calls = [
        (node.lineno, node.col_offset, node.func.id, [_text(argument) for argument in node.args])
        for node in ast.walk(ast.parse(file.read()))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in keywords
    ]
    for line, _, name, given in sorted(calls, key=lambda call: call[:2]):
        yield line, name, given[0] if len(given) == 1 else tuple(given), []


def _text(node: ast.expr) -> str | None:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None


SOURCES: tuple[tuple[Any, str, str], ...] = (
    (python_texts, "generator", "*.py"),
    ("jinja2.ext:babel_extract", "themes", "*.html"),
    ("javascript", "themes", "*.js"),
)
COMMENTS = ("For translators:",)


def collected() -> Catalog:
    """A catalogue of all texts, with the files they stand in, in the order of the files."""
    catalogue = Catalog(project="Partway", version="1", charset="utf-8", fuzzy=False, copyright_holder="Partway's authors")
    catalogue.header_comment = "# Texts that readers see. Written by tests/languages/test_catalogues.py."
    options = {"trim_blocks": "true", "lstrip_blocks": "true"}
    for method, folder, pattern in SOURCES:
        for path in sorted((HOME / folder).rglob(pattern)):
            name = path.relative_to(HOME).as_posix()
            if name.startswith("generator/languages/") or "/vendor/" in name or "/_themes/" in name or "/_content/" in name:
                continue
            with path.open("rb") as file:
                found = extract(method, file, KEYWORDS, COMMENTS, options if pattern == "*.html" else {})
                for _, message, comments, context in found:
                    catalogue.add(message, None, [(name, 0)], auto_comments=comments, context=context)
    return catalogue


def translations() -> dict[str, Path]:
    """The .po files by language."""
    return {path.parent.parent.name: path for path in sorted(CATALOGUES.rglob("*.po"))}


def read(path: Path) -> Catalog:
    return read_po(BytesIO(path.read_bytes()))


def written(catalogue: Catalog) -> bytes:
    """The bytes of a .po or .pot file; without dates and line numbers, so that they change only with the texts."""
    out = BytesIO()
    write_po(out, catalogue, width=120, omit_header=False, include_lineno=False, ignore_obsolete=True)
    kept = (b'"Language:', b'"Plural-Forms:', b'"MIME-Version:', b'"Content-', b'"Project-')
    head, _, rest = out.getvalue().partition(b"\n\n")
    return b"\n".join(line for line in head.split(b"\n") if line[:1] != b'"' or line.startswith(kept)) + b"\n\n" + rest


def updated(language: str, old: Catalog, template: Catalog) -> Catalog:
    """The old translation with the texts of the template: kept where they are the same, empty where they are new."""
    new = Catalog(locale=old.locale or language, project="Partway", version="1", charset="utf-8", fuzzy=False)
    new.header_comment = old.header_comment
    for message in template:
        if message.id:
            known = old.get(message.id, message.context)
            string = known.string if known is not None and known.string and not known.fuzzy else None
            new.add(
                message.id,
                string if string is not None else (("", ) * new.num_plurals if message.pluralizable else ""),
                message.locations,
                auto_comments=message.auto_comments,
                user_comments=known.user_comments if known is not None else (),
                context=message.context,
            )
    return new
