"""Who comes in: host names and origins, the word, what every answer says of itself."""

import asyncio
import http.client
import re
import socket
import urllib.parse
from concurrent.futures import ThreadPoolExecutor
from contextlib import nullcontext, suppress

import pytest
from screens import PATIENCE_MS, context_of, go, measure, settled
from served import free_port, started_wizard
from starlette.requests import Request
from streamlit import net_util

from sizer.web.gate import HEADERS, MOST_FORM_BYTES, Gate, new_word

FAR, NEAR = ("192.0.2.7", 50000), ("127.0.0.1", 50000)
HOSTS = ("localhost", "127.0.0.1", "192.0.2.1")
OK = "let through"


def in_a_thread(work):
    """What a coroutine gives; the browser of other tests may have a loop in this thread."""
    with ThreadPoolExecutor(1) as pool:
        return pool.submit(asyncio.run, work).result()


async def _behind(scope, receive, send):
    """Stands in for Streamlit."""
    if scope["type"] == "websocket":
        await send({"type": "websocket.accept"})
        return
    await send({"type": "http.response.start", "status": 200,
                "headers": [(b"content-type", b"text/plain"), (b"X-Frame-Options", b"ALLOWALL")]})
    await send({"type": "http.response.body", "body": OK.encode()})


def asked(gate, kind="http", method="GET", path="/", client=FAR, body=b"", **headers):
    """(status or message's type, {header: value}, body) of one request."""
    headers = {"host": "192.0.2.1:8530"} | headers
    scope = {"type": kind, "method": method, "path": path, "client": client, "headers": [
        (name.encode(), value.encode()) for name, value in headers.items()]}
    sent = []

    async def receive():
        return {"type": "http.request", "body": body, "more_body": False}

    async def send(message):
        sent.append(message)

    in_a_thread(gate(scope, receive, send))
    if kind == "websocket":
        return sent[0]["type"], {}, ""
    found = {name.decode(): value.decode() for name, value in sent[0]["headers"]}
    return sent[0]["status"], found, sent[-1]["body"].decode()


@pytest.fixture
def hurried(monkeypatch):
    monkeypatch.setattr("sizer.web.gate.WRONG_S", 0.0)


def gate(word=None):
    return Gate(_behind, HOSTS, word)


@pytest.mark.parametrize("host", ["stranger.example", "", "localhost.stranger.example", "[::1",
                                  "localhost@stranger.example", "127.0.0.2"])
def test_a_strange_host_is_refused_for_pages_and_websockets(host):
    assert asked(gate(), host=host)[0] == 403
    assert asked(gate(), "websocket", host=host)[0] == "websocket.close"


@pytest.mark.parametrize("host", ["localhost", "localhost:8530", "127.0.0.1:8530", "LOCALHOST",
                                  "localhost.:8530"])
def test_its_own_names_are_let_through(host):
    assert asked(gate(), host=host)[::2] == (200, OK)
    assert asked(gate(), "websocket", host=host)[0] == "websocket.accept"


def test_a_strange_origin_may_neither_write_nor_open_a_websocket():
    ours, theirs = "http://192.0.2.1:8530", "http://stranger.example"
    assert asked(gate(), "websocket", origin=ours)[0] == "websocket.accept"
    for origin in (theirs, "null", "http://192.0.2.1:9999", "http://[x"):
        assert asked(gate(), "websocket", origin=origin)[0] == "websocket.close"
        for method in ("POST", "PUT", "DELETE"):
            assert asked(gate(), method=method, origin=origin)[0] == 403
    assert asked(gate(), method="PUT", origin=ours)[0] == 200


def test_every_answer_carries_the_headers_once_and_the_wizards_own():
    for word, status in ((None, 200), ("bcd", 401)):
        found = asked(gate(word))
        assert found[0] == status
        assert {name: found[1].get(name) for name in HEADERS} == HEADERS
        assert "ALLOWALL" not in found[1].values()
    assert "frame-ancestors 'none'" in HEADERS["content-security-policy"]


def test_a_machine_of_the_network_gives_the_word_once(hurried):
    one = gate("bcdfgh")
    assert asked(one)[0] == 401
    assert asked(one, "websocket")[0] == "websocket.close"
    assert asked(one, path="/_stcore/health")[0] == 401
    status, headers, _ = asked(one, method="POST", path="/word", body=b"word=+BCDFGH+")
    assert status == 303
    assert "HttpOnly" in headers["set-cookie"]
    assert "SameSite=Strict" in headers["set-cookie"]
    assert "bcdfgh" not in headers["set-cookie"]
    cookie = headers["set-cookie"].split(";")[0]
    assert asked(one, cookie=cookie)[::2] == (200, OK)
    assert asked(one, "websocket", cookie=cookie)[0] == "websocket.accept"
    assert asked(gate("bcdfgh"), cookie=cookie)[0] == 401  # another start, another word


@pytest.mark.parametrize("body", [b"", b"word=", b"word=bcdfg", b"\xff\xfe",
                                  b"word=bcdfgh" + b"x" * 99, b"x" * (MOST_FORM_BYTES + 9)])
def test_a_wrong_word_opens_nothing(body, hurried):
    status, headers, said = asked(gate("bcdfgh"), method="POST", path="/word", body=body)
    assert status == 401
    assert "set-cookie" not in headers
    assert "not the word" in said
    assert "bcdfgh" not in said


@pytest.mark.parametrize("cookie", ["sizer_word=", "sizer_word=x", ";;;", "a b=c", "sizer_word"])
def test_a_made_up_cookie_opens_nothing(cookie):
    assert asked(gate("bcdfgh"), cookie=cookie)[0] == 401


def test_a_wrong_word_waits_and_no_second_is_tried_meanwhile():
    one = gate("bcdfgh")

    async def two():
        found = []

        async def trial():
            async def receive():
                return {"type": "http.request", "body": b"word=x"}

            async def send(message):
                found.append(message.get("status"))

            await one({"type": "http", "method": "POST", "path": "/word", "client": FAR,
                       "headers": [(b"host", b"192.0.2.1")]}, receive, send)

        await asyncio.gather(trial(), trial())
        return [status for status in found if status]

    assert sorted(in_a_thread(two())) == [401, 429]


def test_this_machine_gives_no_word():
    assert asked(gate("bcdfgh"), client=NEAR)[0] == 200
    assert len({new_word() for _ in range(100)}) == 100


@pytest.mark.parametrize("gone", [True, False])
def test_a_browser_that_leaves_in_the_middle_of_an_answer_is_no_fault(gone):
    async def closing_twice(scope, receive, send):
        with suppress(OSError):
            await send({"type": "websocket.send", "bytes": b"x"})
        raise RuntimeError("once a close message has been sent")

    async def send(message):
        if gone:
            raise ConnectionResetError

    meeting = Gate(closing_twice, HOSTS)({
        "type": "websocket", "path": "/", "client": NEAR, "headers": [(b"host", b"localhost")]},
        None, send)
    with nullcontext() if gone else pytest.raises(RuntimeError):
        in_a_thread(meeting)


def test_a_browser_that_leaves_in_the_middle_of_an_upload_is_no_fault():
    async def reading(scope, receive, send):
        await Request(scope, receive).body()

    async def gone():
        return {"type": "http.disconnect"}

    in_a_thread(Gate(reading, HOSTS)({
        "type": "http", "method": "PUT", "path": "/", "client": NEAR,
        "headers": [(b"host", b"localhost")]}, gone, None))


@pytest.fixture(scope="module")
def on_the_network(tmp_path_factory):
    """(own address, port, word, the log's path) of a wizard that the network may open."""
    own_ip = net_util.get_internal_ip()
    if own_ip is None or own_ip.startswith("127."):
        pytest.skip("needs an address on a network")
    port, log = free_port(), tmp_path_factory.mktemp("network") / "log.txt"
    server = started_wizard(port, log, "--network")
    try:
        (word,) = re.findall(r"gives the word (\w+)", log.read_text())
        yield own_ip, port, word, log
    finally:
        server.terminate()
        server.wait(600)


def answer(host, port, method="GET", path="/", body=None, **headers):
    """(status, headers, body) of one request."""
    to = http.client.HTTPConnection(host, port, timeout=600)
    to.request(method, path, body, headers)
    got = to.getresponse()
    found = got.status, dict(got.getheaders()), got.read()
    to.close()
    return found


def test_the_network_sees_nothing_without_the_word(on_the_network):
    host, port, word, _ = on_the_network
    assert answer("127.0.0.1", port)[0] == 200
    for path in ("/", "/_stcore/health", "/_stcore/host-config", "/files", "/static/x.js"):
        status, _, body = answer(host, port, path=path)
        assert status == 401, path
        assert b"streamlit" not in body.lower()
    status, headers, _ = answer(host, port, "POST", "/word", urllib.parse.urlencode({"word": word}))
    assert status == 303
    headers = {name.lower(): value for name, value in headers.items()}
    cookie = headers["set-cookie"].split(";")[0]
    assert answer(host, port, Cookie=cookie)[0] == 200
    assert answer(host, port, path="/_stcore/health", Cookie=cookie)[0] == 200


@pytest.mark.parametrize("length", ["900000000", "6500001", "-", "1e3"])
def test_a_body_that_says_it_is_too_large_is_refused(length):
    assert asked(gate(), method="PUT", **{"content-length": length})[0] == 413


@pytest.mark.parametrize("path", ["/_stcore/agent/openapi.json", "/_stcore/agent/mcp",
                                  "/_stcore/metrics", "/auth/login", "/oauth2callback"])
def test_what_only_programs_ask_of_streamlit_is_not_served(path, on_the_network):
    assert answer("127.0.0.1", on_the_network[1], path=path)[0] == 404


def test_an_upload_is_refused_before_it_is_read(on_the_network):
    _, port, _, _ = on_the_network
    with socket.create_connection(("127.0.0.1", port), 600) as to:
        to.sendall(b"PUT /_stcore/upload_file/none/none HTTP/1.1\r\nHost: localhost\r\n"
                   b"Content-Length: 900000000\r\n\r\n")
        assert b" 413 " in to.recv(200).split(b"\r\n")[0]  # not a byte of it was sent


def test_the_log_tells_no_measure_name_or_file(on_the_network, browser, tmp_path):
    _, port, word, log = on_the_network
    told = []
    context = context_of(browser)
    page = context.new_page()
    page.on("console", lambda message: told.append(message.text))
    page.goto(f"http://localhost:{port}")
    settled(page)
    measure(page, "83.7", "1787", "387")
    go(page, "Own design")
    bad = tmp_path / "zebra-secret.toml"
    bad.write_text('name = "okapi"\nformat = [')
    page.locator("input[type=file]").first.set_input_files(bad)
    page.get_by_text("This file was not opened").first.wait_for(timeout=PATIENCE_MS)
    context.close()
    said = log.read_text().replace(str(port), "")  # any digits may be in it
    for secret in ("83.7", "1787", "387", "zebra", "okapi"):
        assert secret not in said
    assert said.count(word) == 1
    assert not [one for one in told if "Content Security Policy" in one or "Refused to" in one]
