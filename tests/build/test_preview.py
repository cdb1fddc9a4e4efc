"""The preview: on 127.0.0.1 only, by its own name only, told of each build."""

from __future__ import annotations

import http.client
import threading
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from binder.examine import Asked
from binder.memory import Memory, Recent
from binder.outputs import KINDS
from binder.preview import EVENTS, Listeners, rebuild, serve
from tests.kitchen import Kitchen
from tests.scenarios.test_scenarios import STEW, STEW_WEEK

SITE = frozenset(KINDS) - {"print", "labels"}


@pytest.fixture
def served(tmp_path: Path) -> Iterator[tuple[int, Listeners]]:
    (tmp_path / "site").mkdir()
    (tmp_path / "site/index.html").write_text("<html><body><p>stew</p></body></html>")
    listeners = Listeners()
    server = serve(tmp_path, 0, listeners)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    assert server.server_address[0] == "127.0.0.1"
    yield server.server_address[1], listeners
    server.shutdown()
    server.server_close()


def asked(port: int, path: str, host: str | None = None) -> tuple[int, bytes]:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
    connection.request("GET", path, headers={"Host": host} if host else {})
    answer = connection.getresponse()
    content = answer.read()
    connection.close()
    return answer.status, content


def test_pages_wait_for_the_next_build(served: tuple[int, Listeners]) -> None:
    status, page = asked(served[0], "/site/index.html")
    assert status == 200 and b"stew" in page and EVENTS.encode() in page


def test_another_name_for_this_machine_is_turned_away(served: tuple[int, Listeners]) -> None:
    assert asked(served[0], "/site/index.html", "kitchen.example")[0] == 403


def test_nothing_outside_the_output_is_served(served: tuple[int, Listeners], tmp_path: Path) -> None:
    (tmp_path.parent / "secret.txt").write_text("secret")
    for path in ("/../secret.txt", "/%2e%2e/secret.txt", "/site/../../secret.txt"):
        assert b"secret" not in asked(served[0], path)[1]


def test_an_open_page_is_told_of_a_build(served: tuple[int, Listeners]) -> None:
    port, listeners = served
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
    connection.request("GET", EVENTS)
    answer = connection.getresponse()
    while not listeners._queues:
        pass
    listeners.tell()
    assert answer.readline() == b"data: built\n"
    connection.close()


def test_with_an_error_the_last_good_build_stays(kitchen: Kitchen) -> None:
    kitchen.recipe("barley-stew", STEW).week(STEW_WEEK).write()
    today, memory = Asked(date(2026, 6, 7)), Memory(None)
    assert rebuild(kitchen.content, kitchen.out, today, "default", SITE, memory, Recent())[0]
    page = (kitchen.out / "site/index.html").read_bytes()
    kitchen.recipe("barley-stew", STEW.replace("makes: 5 portions", "makes: nothing")).write()
    built, said = rebuild(kitchen.content, kitchen.out, today, "default", SITE, memory, Recent())
    assert not built and "bad-amount" in "\n".join(said) and said[-1].endswith("the last good build stays")
    assert (kitchen.out / "site/index.html").read_bytes() == page
