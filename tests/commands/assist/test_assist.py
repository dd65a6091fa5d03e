"""The language server driven by a real client over its own pipes."""

from __future__ import annotations

import asyncio
import shutil
import sys
from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest
from lsprotocol import types as lsp
from pygls.lsp.client import LanguageClient

from tests.review.corrections import LIBRARY

ROOT = Path(__file__).parents[3]
STEP = "tarn-5/steps/unplug-battery.md"
LIMIT = 60


class Editor:
    """A client that keeps what it is told."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.client = LanguageClient("editor", "1")
        self.told: dict[str, list[lsp.Diagnostic]] = {}
        self.news = asyncio.Event()

        @self.client.feature(lsp.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
        def heard(params: lsp.PublishDiagnosticsParams) -> None:
            self.told[params.uri] = list(params.diagnostics)
            self.news.set()

    def uri(self, file: str) -> str:
        return (self.root / file).resolve().as_uri()

    def text(self, file: str) -> str:
        return (self.root / file).read_text("utf-8")

    def document(self, file: str) -> lsp.TextDocumentIdentifier:
        return lsp.TextDocumentIdentifier(self.uri(file))

    def spot(self, file: str, words: str, into: int = 1) -> lsp.Position:
        """A position within the first line that holds `words`."""
        for number, line in enumerate(self.text(file).split("\n")):
            if words in line:
                return lsp.Position(number, line.index(words) + into)
        raise AssertionError(words)

    async def start(self) -> None:
        await self.client.start_io(sys.executable, "-m", "generator", "assist", cwd=str(ROOT))
        await self.client.initialize_async(lsp.InitializeParams(capabilities=lsp.ClientCapabilities(), process_id=None))
        self.client.initialized(lsp.InitializedParams())

    def open(self, file: str, text: str | None = None) -> None:
        item = lsp.TextDocumentItem(self.uri(file), "markdown", 1, self.text(file) if text is None else text)
        self.client.text_document_did_open(lsp.DidOpenTextDocumentParams(item))

    def type(self, file: str, text: str, version: int) -> None:
        whole = lsp.TextDocumentContentChangeWholeDocument(text)
        document = lsp.VersionedTextDocumentIdentifier(uri=self.uri(file), version=version)
        self.client.text_document_did_change(lsp.DidChangeTextDocumentParams(document, [whole]))

    async def until(self, holds: Callable[[], bool]) -> None:
        while not holds():
            self.news.clear()
            await asyncio.wait_for(self.news.wait(), LIMIT)

    async def stop(self) -> None:
        await self.client.shutdown_async(None)
        self.client.exit(None)
        await self.client.stop()


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return Path(shutil.copytree(LIBRARY, tmp_path / "content"))


def driven(root: Path, course: Callable[[Editor], Awaitable[None]]) -> None:
    async def whole() -> None:
        editor = Editor(root)
        await asyncio.wait_for(editor.start(), LIMIT)
        try:
            await asyncio.wait_for(course(editor), LIMIT)
        finally:
            await asyncio.wait_for(editor.stop(), LIMIT)

    asyncio.run(whole())


def test_findings_come_as_one_types_and_go_when_mended(root: Path) -> None:
    async def course(editor: Editor) -> None:
        uri = editor.uri(STEP)
        text = editor.text(STEP)
        editor.open(STEP)
        editor.type(STEP, text.replace("undo: battery-plug", "undo: battery-plugg"), 2)
        await editor.until(lambda: any(each.code == "ref/unknown-joint" for each in editor.told.get(uri, [])))
        found = next(each for each in editor.told[uri] if each.code == "ref/unknown-joint")
        line = text.split("\n").index("  - undo: battery-plug")
        assert (found.range.start.line, found.range.start.character, found.range.end.character) == (line, 10, 23)
        assert found.severity == lsp.DiagnosticSeverity.Error and found.source == "partway"
        assert editor.text(STEP) == text  # nothing was saved
        editor.type(STEP, text, 3)
        await editor.until(lambda: not editor.told.get(uri))

    driven(root, course)


def test_positions_are_counted_as_editors_count_them(root: Path) -> None:
    async def course(editor: Editor) -> None:
        text = editor.text(STEP).replace("Set the [plastic", "🔧 Set the [plastic")
        text = text.replace("tool:plastic-lever)", "tool:no-tool)", 1)
        editor.open(STEP, text)
        await editor.until(lambda: any(each.code == "ref/unknown-tool" for each in editor.told.get(editor.uri(STEP), [])))
        (found,) = (each for each in editor.told[editor.uri(STEP)] if each.code == "ref/unknown-tool")
        line = text.split("\n")[found.range.start.line]
        before = line[: line.index("[plastic")]
        assert found.range.start.character == len(before.encode("utf-16-le")) // 2

    driven(root, course)


def test_names_hover_definition_references_and_rename(root: Path) -> None:
    async def course(editor: Editor) -> None:
        editor.open(STEP)
        client = editor.client
        plug = editor.spot(STEP, "battery-plug", 3)
        typed = editor.spot(STEP, "undo: battery-plug", 6)
        offered = await client.text_document_completion_async(lsp.CompletionParams(editor.document(STEP), typed))
        assert isinstance(offered, lsp.CompletionList)
        assert "battery-plug" in [item.label for item in offered.items]
        pointed = await client.text_document_hover_async(lsp.HoverParams(editor.document(STEP), plug))
        assert pointed is not None and isinstance(pointed.contents, lsp.MarkupContent)
        assert "**battery plug" in pointed.contents.value and "data:image/svg+xml;base64," in pointed.contents.value
        made = await client.text_document_definition_async(lsp.DefinitionParams(editor.document(STEP), plug))
        assert isinstance(made, list) and [each.uri for each in made] == [editor.uri("tarn-5/anatomy.yaml")]  # type: ignore[union-attr]
        used = await client.text_document_references_async(
            lsp.ReferenceParams(lsp.ReferenceContext(include_declaration=False), editor.document(STEP), plug)
        )
        assert used and {each.uri for each in used} >= {editor.uri(STEP)}
        change = await client.text_document_rename_async(lsp.RenameParams(editor.document(STEP), plug, "cell-plug"))
        assert change is not None and change.document_changes is not None
        texts = [each for each in change.document_changes if isinstance(each, lsp.TextDocumentEdit)]
        assert {each.text_document.uri for each in texts} >= {editor.uri(STEP), editor.uri("tarn-5/anatomy.yaml")}
        with pytest.raises(Exception, match="is no id"):
            await client.text_document_rename_async(lsp.RenameParams(editor.document(STEP), plug, "Cell Plug"))

    driven(root, course)


def test_a_renamed_step_takes_its_file_along(root: Path) -> None:
    async def course(editor: Editor) -> None:
        file = "tarn-5/device.yaml"
        editor.open(file)
        spot = editor.spot(file, "- unplug-battery", 4)
        change = await editor.client.text_document_rename_async(lsp.RenameParams(editor.document(file), spot, "free-cell"))
        assert change is not None and change.document_changes is not None
        moves = [each for each in change.document_changes if isinstance(each, lsp.RenameFile)]
        assert [(each.old_uri, each.new_uri) for each in moves] == [
            (editor.uri(STEP), editor.uri("tarn-5/steps/free-cell.md"))
        ]

    driven(root, course)


def test_what_is_no_content_is_left_alone(root: Path, tmp_path: Path) -> None:
    (tmp_path / "letter.md").write_text("Dear reader", "utf-8")

    async def course(editor: Editor) -> None:
        for uri in ((tmp_path / "letter.md").as_uri(), "untitled:one", "file:///nowhere/x.yaml"):
            item = lsp.TextDocumentItem(uri, "markdown", 1, "part: x")
            editor.client.text_document_did_open(lsp.DidOpenTextDocumentParams(item))
            params = lsp.HoverParams(lsp.TextDocumentIdentifier(uri), lsp.Position(0, 2))
            assert await editor.client.text_document_hover_async(params) is None
        assert editor.told == {}

    driven(root, course)
