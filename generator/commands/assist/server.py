"""The language server: what an editor asks, answered from `editing`, `rules` and the files as the editor holds them."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from urllib.request import url2pathname

from lsprotocol import types as lsp
from pygls.exceptions import JsonRpcInvalidParams
from pygls.lsp.server import LanguageServer

from generator import __version__
from generator.commands.folders import read_theme
from generator.editing.completing import candidates
from generator.editing.hovering import figure, told
from generator.editing.mentions import Mention, alike, at, mentions_of
from generator.editing.renaming import NotRenamed, rename
from generator.orders.guide import Guide, Library
from generator.orders.reading import read_guides
from generator.rules import findings_of, findings_of_everything
from generator.rules.finding import Reported
from generator.source.files import NoContent, instead_of
from generator.source.places import Place
from generator.source.reading import read_library

SEVERITIES = {
    "error": lsp.DiagnosticSeverity.Error,
    "warning": lsp.DiagnosticSeverity.Warning,
    "note": lsp.DiagnosticSeverity.Information,
}
AUTHORED = (".md", ".yaml")
CONTENT_MARKS = ("library.yaml", "tools.yaml")
"""Files that lie at the top of a content folder."""


@dataclass(frozen=True)
class Read:
    """A content folder as the editor holds it."""

    root: Path
    library: Library

    @cached_property
    def mentions(self) -> tuple[Mention, ...]:
        """Every mention in all files; found when first asked for, since judging needs none."""
        return mentions_of(self.library.texts)

    def guide(self, file: str) -> Guide | None:
        device = file.partition("/")[0] if "/" in file else ""
        return next((guide for guide in self.library.guides if guide.id == device), None)


def server_for(content: str | None) -> LanguageServer:
    """A server; content: the folder to work on, or None for the one that a file lies in."""
    server = LanguageServer("partway", __version__, text_document_sync_kind=lsp.TextDocumentSyncKind.Incremental)
    told_before: dict[Path, set[str]] = {}

    def read(uri: str) -> tuple[Read, str] | None:
        path = _path(uri)
        root = _root(content, path) if path is not None else None
        if path is None or root is None:
            return None
        held = {
            held_path: document.source
            for document in server.workspace.text_documents.values()
            if (held_path := _path(document.uri)) is not None
        }
        try:
            with instead_of(held):
                library = read_guides(read_library(root))
        except (NoContent, OSError):
            return None
        file = path.resolve().relative_to(root.resolve()).as_posix()
        return Read(root, library), file

    def named(uri: str, position: lsp.Position) -> tuple[Read, str, Mention] | None:
        found = read(uri)
        if found is None:
            return None
        document = server.workspace.get_text_document(uri)
        line, column = _in_characters(document.lines, position)
        one = at(found[0].mentions, found[1], line, column)
        return (*found, one) if one is not None else None

    def judge(uri: str) -> None:
        """Tell what there is to say about the device of a file, or about everything for a file that all share."""
        found = read(uri)
        if found is None:
            return
        state, file = found
        guide = state.guide(file)
        library, root = state.library, state.root
        by_file: dict[str, list[lsp.Diagnostic]] = {}
        for reported in findings_of(guide, library) if guide is not None else findings_of_everything(library):
            by_file.setdefault(reported.finding.place.file, []).append(_diagnostic(reported, library))
        concerned = f"{guide.id}/" if guide is not None else ""
        earlier = {name for name in told_before.get(root, set()) if name.startswith(concerned)}
        told_before[root] = (told_before.get(root, set()) - earlier) | set(by_file)
        by_file.update({name: [] for name in earlier - set(by_file)})
        for name, diagnostics in sorted(by_file.items()):
            server.text_document_publish_diagnostics(
                lsp.PublishDiagnosticsParams(uri=(root / name).resolve().as_uri(), diagnostics=diagnostics)
            )

    @server.feature(lsp.TEXT_DOCUMENT_DID_OPEN)
    def opened(params: lsp.DidOpenTextDocumentParams) -> None:
        judge(params.text_document.uri)

    @server.feature(lsp.TEXT_DOCUMENT_DID_CHANGE)
    def typed(params: lsp.DidChangeTextDocumentParams) -> None:
        judge(params.text_document.uri)

    @server.feature(lsp.TEXT_DOCUMENT_DID_SAVE)
    def saved(params: lsp.DidSaveTextDocumentParams) -> None:
        judge(params.text_document.uri)

    @server.feature(lsp.TEXT_DOCUMENT_DID_CLOSE)
    def closed(params: lsp.DidCloseTextDocumentParams) -> None:
        judge(params.text_document.uri)

    @server.feature(lsp.TEXT_DOCUMENT_COMPLETION, lsp.CompletionOptions(trigger_characters=[":", "[", "-", "("]))
    def complete(params: lsp.CompletionParams) -> lsp.CompletionList:
        found = read(params.text_document.uri)
        items = []
        if found is not None:
            lines = server.workspace.get_text_document(params.text_document.uri).lines
            line, column = _in_characters(lines, params.position)
            plain = [text.rstrip("\r\n") for text in lines]
            state, file = found
            known = candidates(state.library, state.guide(file), file, plain, line, column)
            items = [
                lsp.CompletionItem(each.id, detail=each.says, kind=lsp.CompletionItemKind.Reference, sort_text=f"{n:05}")
                for n, each in enumerate(known)
            ]
        return lsp.CompletionList(is_incomplete=False, items=items)

    @server.feature(lsp.TEXT_DOCUMENT_HOVER)
    def hover(params: lsp.HoverParams) -> lsp.Hover | None:
        found = named(params.text_document.uri, params.position)
        if found is None:
            return None
        state, file, one = found
        guide = state.guide(file)
        lines = told(state.library, guide, one)
        if not lines:
            return None
        words = [f"**{_plain(lines[0])}**", *(_plain(line) for line in lines[1:])]
        drawn = figure(guide, one, read_theme()) if guide is not None else ""
        if drawn:
            words.append(f"![figure](data:image/svg+xml;base64,{b64encode(drawn.encode('utf-8')).decode('ascii')})")
        return lsp.Hover(
            contents=lsp.MarkupContent(kind=lsp.MarkupKind.Markdown, value="\n\n".join(words)),
            range=_range(one.place, state.library),
        )

    @server.feature(lsp.TEXT_DOCUMENT_DEFINITION)
    def definition(params: lsp.DefinitionParams) -> list[lsp.Location]:
        found = named(params.text_document.uri, params.position)
        if found is None:
            return []
        return _locations(found[0], [each for each in alike(found[0].mentions, found[2]) if each.is_definition])

    @server.feature(lsp.TEXT_DOCUMENT_REFERENCES)
    def references(params: lsp.ReferenceParams) -> list[lsp.Location]:
        found = named(params.text_document.uri, params.position)
        if found is None:
            return []
        wanted = alike(found[0].mentions, found[2])
        kept = [each for each in wanted if params.context.include_declaration or not each.is_definition]
        return _locations(found[0], kept)

    @server.feature(lsp.TEXT_DOCUMENT_PREPARE_RENAME)
    def prepared(params: lsp.PrepareRenameParams) -> lsp.Range | None:
        found = named(params.text_document.uri, params.position)
        return _range(found[2].place, found[0].library) if found is not None else None

    @server.feature(lsp.TEXT_DOCUMENT_RENAME, lsp.RenameOptions(prepare_provider=True))
    def renamed(params: lsp.RenameParams) -> lsp.WorkspaceEdit | None:
        found = named(params.text_document.uri, params.position)
        if found is None:
            return None
        state, _, one = found
        try:
            wanted = rename(state.library.texts, state.mentions, one, params.new_name)
        except NotRenamed as error:
            raise JsonRpcInvalidParams(message=str(error)) from error
        by_file: dict[str, list[lsp.TextEdit | lsp.AnnotatedTextEdit | lsp.SnippetTextEdit]] = {}
        for edit in wanted.edits:
            by_file.setdefault(edit.place.file, []).append(lsp.TextEdit(_range(edit.place, state.library), edit.text))
        changes: list[lsp.TextDocumentEdit | lsp.CreateFile | lsp.RenameFile | lsp.DeleteFile] = [
            lsp.TextDocumentEdit(
                lsp.OptionalVersionedTextDocumentIdentifier(uri=(state.root / file).resolve().as_uri()), edits
            )
            for file, edits in sorted(by_file.items())
        ]
        changes += [
            lsp.RenameFile((state.root / move.old).resolve().as_uri(), (state.root / move.new).resolve().as_uri())
            for move in wanted.moves
        ]
        return lsp.WorkspaceEdit(document_changes=changes)

    def _in_characters(lines: Sequence[str], position: lsp.Position) -> tuple[int, int]:
        """Line and column from 1 in characters; editors count in units of UTF-16."""
        there = server.workspace.position_codec.position_from_client_units(lines, position)
        return there.line + 1, there.character + 1

    def _range(place: Place, library: Library) -> lsp.Range:
        lines = library.texts.get(place.file, ())
        start = _in_units(lines, place.line, place.column)
        return lsp.Range(start, _in_units(lines, place.end_line, place.end_column))

    def _in_units(lines: Sequence[str], line: int, column: int) -> lsp.Position:
        text = lines[line - 1] if 1 <= line <= len(lines) else ""
        return lsp.Position(line - 1, server.workspace.position_codec.client_num_units(text[: column - 1]))

    def _diagnostic(reported: Reported, library: Library) -> lsp.Diagnostic:
        finding = reported.finding
        mend = [finding.mend.text] if finding.mend is not None else []
        return lsp.Diagnostic(
            range=_range(finding.place, library),
            message="\n".join([finding.message, *finding.why, *mend]),
            severity=SEVERITIES[reported.level],
            source="partway",
            code=reported.rule,
        )

    def _locations(state: Read, mentions: Sequence[Mention]) -> list[lsp.Location]:
        return [
            lsp.Location((state.root / each.place.file).resolve().as_uri(), _range(each.place, state.library))
            for each in mentions
        ]

    return server


def _path(uri: str) -> Path | None:
    """The authored file of a `file:` address; None for anything else."""
    if not uri.startswith("file://"):
        return None
    path = Path(url2pathname(uri.removeprefix("file://")))
    return path if path.suffix in AUTHORED else None


def _root(content: str | None, path: Path) -> Path | None:
    """The content folder: the one given, else the nearest folder above the file that looks like one."""
    if content is not None:
        root = Path(content)
        return root if path.resolve().is_relative_to(root.resolve()) else None
    for folder in path.parents:
        if any((folder / mark).is_file() for mark in CONTENT_MARKS):
            return folder
    return None


def _plain(text: str) -> str:
    """Text that cannot mark anything up."""
    return "".join(f"\\{sign}" if sign in "\\`*_{}[]()#+!|<>~" else sign for sign in " ".join(text.split()))


