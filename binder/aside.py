"""PDFs drawn beside the rest of a build: one process a document, so that its memory comes back and it can be ended."""

from __future__ import annotations

import multiprocessing
import threading
from collections.abc import Callable, Mapping
from concurrent.futures import Future, ProcessPoolExecutor
from types import TracebackType

Draw = Callable[[], bytes]
# A binder takes seconds; what has not ended by then is a layout without an end.
LIMIT_SECONDS = 600.0


class Aside:
    """Starts drawings at once and hands them over when they are wanted."""

    def __init__(self, jobs: Mapping[str, Draw]) -> None:
        self._pool = ProcessPoolExecutor(len(jobs), mp_context=_context()) if jobs else None
        self._drawn: dict[str, Future[bytes]] = {}
        for name, draw in jobs.items():
            assert self._pool is not None
            self._drawn[name] = self._pool.submit(draw)

    def __enter__(self) -> Aside:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._pool is not None:
            if kind is not None:
                self._end()
            self._pool.shutdown(wait=kind is None, cancel_futures=True)

    def take(self, name: str) -> bytes:
        """The drawing, waited for; TimeoutError when it does not end."""
        try:
            return self._drawn[name].result(timeout=LIMIT_SECONDS)
        except TimeoutError:
            self._end()
            raise

    def _end(self) -> None:
        assert self._pool is not None
        for process in (self._pool._processes or {}).values():
            process.terminate()


def _context() -> multiprocessing.context.BaseContext:
    """A fork needs no imports again, but may only be made where no other thread runs."""
    forks = "fork" in multiprocessing.get_all_start_methods() and threading.active_count() == 1
    return multiprocessing.get_context("fork" if forks else "spawn")
