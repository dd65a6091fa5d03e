"""The local server of a preview: pages, word of changes, and opening files, on the loopback address and nowhere else."""

from __future__ import annotations

import secrets
import shlex
import subprocess
from collections.abc import Mapping
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from mimetypes import guess_type
from typing import Any
from urllib.parse import parse_qs, unquote, urlsplit

from generator.commands.preview.shelf import Shelf
from generator.handover.previewed import CHANGES, OPEN, OWN, POLICY, Desk, nothing_yet, previewed
from generator.pages.addresses import DEVICE

ADDRESS = "127.0.0.1"
LONGEST_WISH = 8192
"""Bytes of a wish to open a file."""

PATIENCE = 15.0
"""Seconds between two signs of life to a page that waits for a change."""

TYPES = {".js": "text/javascript", ".webmanifest": "application/manifest+json", ".vtt": "text/vtt", ".avif": "image/avif"}


class PreviewServer(ThreadingHTTPServer):
    """editor: a command with the fields {file}, {line} and {column}, as words; empty where files cannot be opened."""

    daemon_threads = True
    allow_reuse_address = True

    def __init__(self, shelf: Shelf, port: int, editor: tuple[str, ...], own: Mapping[str, str]) -> None:
        super().__init__((ADDRESS, port), Answer)
        self.shelf = shelf
        self.editor = editor
        self.own = own
        self.token = secrets.token_urlsafe(24)

    @property
    def address(self) -> str:
        return f"http://{ADDRESS}:{self.server_address[1]}/"

    @property
    def names(self) -> frozenset[str]:
        """What a browser may call this server: a page elsewhere that points its own name here is refused."""
        port = self.server_address[1]
        return frozenset((f"{ADDRESS}:{port}", f"localhost:{port}"))

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that goes away in the middle of an answer is nothing to tell."""


class Answer(BaseHTTPRequestHandler):
    """One request. Nothing is read but what the shelf has, so no path leads out of the site."""

    server: PreviewServer
    server_version = "partway"
    sys_version = ""
    protocol_version = "HTTP/1.1"

    def log_message(self, format: str, *args: Any) -> None:
        """Requests are not told on the terminal."""

    def do_GET(self) -> None:
        if not self._is_for_us():
            return
        path = unquote(urlsplit(self.path).path)
        if path == CHANGES:
            self._wait_for_change()
        elif path.startswith(OWN):
            self._send_own(path.removeprefix(OWN))
        else:
            self._send_page(path.removeprefix("/"))

    def do_POST(self) -> None:
        if not self._is_for_us():
            return
        if urlsplit(self.path).path != OPEN:
            self._send(HTTPStatus.NOT_FOUND, b"", "text/plain")
            return
        length = self.headers.get("Content-Length", "")
        if not length.isdecimal() or int(length) > LONGEST_WISH:
            self.close_connection = True
            self._send(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, b"", "text/plain")
            return
        fields = parse_qs(self.rfile.read(int(length)).decode("utf-8", "replace"))
        self._send(self._opened({name: values[0] for name, values in fields.items()}), b"", "text/plain")

    def _is_for_us(self) -> bool:
        origin = self.headers.get("Origin")
        is_ours = self.headers.get("Host") in self.server.names
        if is_ours and (origin is None or urlsplit(origin).netloc in self.server.names):
            return True
        self.close_connection = True
        self._send(HTTPStatus.FORBIDDEN, b"This preview answers to its own address only.\n", "text/plain")
        return False

    # --- pages -------------------------------------------------------------------------------------------------------

    def _send_page(self, path: str) -> None:
        shelf = self.server.shelf
        path = f"{path}{DEVICE}" if path.endswith("/") or not path else path
        version = shelf.version
        shown = shelf.show(path)
        desk = Desk(self.server.token, version, bool(self.server.editor))
        if shown is None:
            self._send_missing(path, desk)
            return
        data = shown.data
        kind = _type_of(path)
        if kind == "text/html" and isinstance(data, str):
            found = shelf.findings(shown.device)
            data = previewed(data, desk, found, shown.device, shown.is_old, shelf.trouble)
        self._send(HTTPStatus.OK, data.encode("utf-8") if isinstance(data, str) else data, kind)

    def _send_missing(self, path: str, desk: Desk) -> None:
        if _type_of(path) != "text/html":
            self._send(HTTPStatus.NOT_FOUND, b"", "text/plain")
            return
        device = path.partition("/")[0] if "/" in path else ""
        page = nothing_yet(path, desk, self.server.shelf.findings(device))
        self._send(HTTPStatus.NOT_FOUND, page.encode("utf-8"), "text/html")

    def _send_own(self, name: str) -> None:
        text = self.server.own.get(name)
        if text is None:
            self._send(HTTPStatus.NOT_FOUND, b"", "text/plain")
        else:
            self._send(HTTPStatus.OK, text.encode("utf-8"), _type_of(name))

    def _send(self, status: HTTPStatus, data: bytes, kind: str) -> None:
        self.send_response(status)
        text = kind.startswith("text/") or kind.endswith("javascript")
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if text else kind)
        self.send_header("Content-Length", str(len(data)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("Content-Security-Policy", POLICY)
        self.send_header("X-Content-Type-Options", "nosniff")
        self.end_headers()
        self.wfile.write(data)

    # --- word of changes ---------------------------------------------------------------------------------------------

    def _wait_for_change(self) -> None:
        """Server-sent events (HTML standard, 9.2): `changed` as soon as what is shown is not of version `since`."""
        since = parse_qs(urlsplit(self.path).query).get("since", [""])[0]
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.send_header("Cache-Control", "no-store")
        self.send_header("Connection", "close")
        self.end_headers()
        self.close_connection = True
        shelf = self.server.shelf
        while True:
            with shelf.changed:
                has_changed = shelf.changed.wait_for(lambda: str(shelf.version) != since, timeout=PATIENCE)
            self.wfile.write(b"event: changed\ndata: \n\n" if has_changed else b": still here\n\n")
            self.wfile.flush()
            if has_changed:
                return

    # --- opening files -----------------------------------------------------------------------------------------------

    def _opened(self, wish: Mapping[str, str]) -> HTTPStatus:
        """Opens one of the files that were read, at a line, with the command the author named; no shell is involved."""
        if not secrets.compare_digest(wish.get("token", "").encode(), self.server.token.encode()) or not self.server.editor:
            return HTTPStatus.FORBIDDEN
        file = self.server.shelf.file_of(wish.get("file", ""))
        line, column = wish.get("line", "1"), wish.get("column", "1")
        if file is None or not (line.isdecimal() and column.isdecimal()):
            return HTTPStatus.NOT_FOUND
        fields = {"{file}": str(file.resolve()), "{line}": line, "{column}": column}
        words = [_filled(word, fields) for word in self.server.editor]
        try:
            subprocess.Popen(words, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        except OSError:
            return HTTPStatus.INTERNAL_SERVER_ERROR
        return HTTPStatus.NO_CONTENT


def _filled(word: str, fields: Mapping[str, str]) -> str:
    for name, value in fields.items():
        word = word.replace(name, value)
    return word


def _type_of(path: str) -> str:
    ending = path[path.rfind(".") :].lower()
    return TYPES.get(ending) or guess_type(path)[0] or "application/octet-stream"


def editor_words(command: str) -> tuple[str, ...]:
    """A command as words, split as a shell would. ValueError, with a sentence, for one that names no {file}."""
    try:
        words = tuple(shlex.split(command))
    except ValueError as error:
        raise ValueError(f"The editor command {command} cannot be split into words: {error}.") from error
    if not any("{file}" in word for word in words[1:]):
        raise ValueError(f'The editor command {command} has no place for the file. Write it like "ed +{{line}} {{file}}".')
    return words
