"""Watch, rebuild, serve: on 127.0.0.1 only, with pages that load themselves anew after each build."""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable
from datetime import date
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from time import perf_counter
from typing import Any

from binder import disk
from binder.build import outputs
from binder.commands.terminal import problem_lines, summary
from binder.examine import Asked, examine
from binder.memory import Memory, Recent, of_this_program
from binder.outputs import Kind, owner

EVENTS = "/-/changes"
_SCRIPT = b"<script>new EventSource('" + EVENTS.encode() + b"').onmessage = () => location.reload()</script></body>"
_WAIT_SECONDS = 15.0


class Listeners:
    """The open pages; each gets a word when a build is done."""

    def __init__(self) -> None:
        self._queues: set[queue.SimpleQueue[str]] = set()
        self._lock = threading.Lock()

    def join(self) -> queue.SimpleQueue[str]:
        mine: queue.SimpleQueue[str] = queue.SimpleQueue()
        with self._lock:
            self._queues.add(mine)
        return mine

    def leave(self, mine: queue.SimpleQueue[str]) -> None:
        with self._lock:
            self._queues.discard(mine)

    def tell(self) -> None:
        with self._lock:
            for each in self._queues:
                each.put("built")


class Handler(SimpleHTTPRequestHandler):
    """Files below the output folder; HTML with the script that waits for the next build."""

    listeners: Listeners
    names: frozenset[str]

    def do_GET(self) -> None:
        # A page elsewhere that points a name of its own at this machine is turned away.
        if self.headers.get("Host", "").lower() not in self.names:
            self.send_error(403, "only by the address that binder preview prints")
        elif self.path == EVENTS:
            self._events()
        elif self.path == "/":
            self.send_response(302)
            self.send_header("Location", "/site/index.html")
            self.end_headers()
        else:
            self._file()

    def _file(self) -> None:
        path = Path(self.translate_path(self.path))
        if path.is_dir():
            path = path / "index.html"
        if path.suffix != ".html" or not path.is_file():
            super().do_GET()
            return
        content = path.read_bytes().replace(b"</body>", _SCRIPT)
        self.send_response(200)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        self.wfile.write(content)

    def _events(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/event-stream")
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        mine = self.listeners.join()
        try:
            while True:
                try:
                    word = mine.get(timeout=_WAIT_SECONDS)
                    self.wfile.write(f"data: {word}\n\n".encode())
                except queue.Empty:
                    self.wfile.write(b": still here\n\n")
                self.wfile.flush()
        except OSError:
            pass  # The page was closed.
        finally:
            self.listeners.leave(mine)

    def log_message(self, format: str, *args: Any) -> None:
        """Nothing: the terminal is for builds and problems."""


def serve(out: Path, port: int, listeners: Listeners) -> ThreadingHTTPServer:
    """A server on 127.0.0.1 below `out`; port 0 takes any free one. Run it with serve_forever()."""

    class Here(Handler):
        def __init__(self, *arguments: Any, **options: Any) -> None:
            super().__init__(*arguments, directory=str(out), **options)

    server = ThreadingHTTPServer(("127.0.0.1", port), Here)
    server.daemon_threads = True
    at = server.server_address[1]
    Here.listeners = listeners
    Here.names = frozenset({f"127.0.0.1:{at}", f"localhost:{at}"})
    return server


def rebuild(
    content: Path, out: Path, asked: Asked, theme: str, kinds: frozenset[Kind], memory: Memory, recent: Recent
) -> tuple[bool, list[str]]:
    """One build; whether the output was replaced, and what to say. With errors the last good build stays."""
    begun = perf_counter()
    try:
        files, set_with = disk.read_content(content), disk.read_theme(theme, content)
    except disk.NoContent as fault:
        return False, [str(fault)]
    examined = examine(files, asked, memory, recent=recent)
    said = list(problem_lines(examined.problems, examined.texts, files.shown, False))
    if examined.library is None or examined.has_errors:
        return False, [*said, summary(examined.problems, "the last good build stays")]
    made = outputs(examined, files, set_with, kinds, memory, standing=disk.standing_binders(out))
    changed = disk.replace_outputs(out, made, lambda path: owner(path) in kinds)
    return True, [*said, f"built in {perf_counter() - begun:.2f} s, {changed} files new or changed"]


def run(
    content: Path,
    out: Path,
    today: Callable[[], date],
    week: str | None,
    theme: str,
    port: int,
    kinds: frozenset[Kind],
) -> None:
    """Build, serve and build again until interrupted."""
    from watchfiles import watch

    memory, recent = of_this_program(), Recent()
    listeners = Listeners()
    server = serve(out, port, listeners)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    print("\n".join(rebuild(content, out, Asked(today(), week), theme, kinds, memory, recent)[1]))
    print(f"http://127.0.0.1:{server.server_address[1]}/site/index.html  (Ctrl-C ends it)", flush=True)
    try:
        for _ in watch(content, debounce=60, step=20):
            built, said = rebuild(content, out, Asked(today(), week), theme, kinds, memory, recent)
            print("\n".join(said), flush=True)
            if built:
                listeners.tell()
    except KeyboardInterrupt:
        pass
    finally:
        server.shutdown()
