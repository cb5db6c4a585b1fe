"""Who can reach the wizard, and what it sends."""

import socket
from pathlib import Path

import pytest

LOOPBACK = "0100007F"  # 127.0.0.1 as /proc/net/tcp writes it
LISTENS = "0A"


def answer_to(wizard, host):
    """First line of the answer to the opening of a session under a host name."""
    port = int(wizard.rsplit(":", 1)[1])
    with socket.create_connection(("127.0.0.1", port), 600) as to:
        to.sendall((f"GET /_stcore/stream HTTP/1.1\r\nHost: {host}:{port}\r\n"
                    f"Origin: http://{host}:{port}\r\nConnection: Upgrade\r\n"
                    "Upgrade: websocket\r\nSec-WebSocket-Version: 13\r\n"
                    "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n").encode())
        return to.recv(200).decode("latin-1").splitlines()[0]


def test_only_this_machine_by_its_own_name_opens_a_session(wizard):
    assert " 101 " in answer_to(wizard, "localhost")
    assert " 403 " in answer_to(wizard, "stranger.example")


@pytest.mark.skipif(not Path("/proc/net/tcp").exists(), reason="needs Linux's list of sockets")
def test_the_wizard_listens_on_this_machine_only(wizard):
    port = f"{int(wizard.rsplit(':', 1)[1]):04X}"
    rows = [line.split() for line in Path("/proc/net/tcp").read_text().splitlines()[1:]]
    assert [row[1] for row in rows if row[3] == LISTENS and row[1].endswith(f":{port}")] == [
        f"{LOOPBACK}:{port}"]


def test_every_download_of_the_files_page_arrives(open_page):
    page = open_page(path="files")
    wanted = {"Station list, mm": "stations-mm.csv", "Station list, inches": "stations-inches.csv",
              "Offsets, mm": "offsets-mm.csv", "Offsets, feet": "offsets-feet.csv",
              "As a base design": "fitted-boat.toml", "Everything": "fitted-boat.json"}
    for label, name in wanted.items():
        with page.expect_download() as caught:
            page.get_by_role("button", name=label).click()
        assert caught.value.suggested_filename == name
        text = Path(caught.value.path()).read_text("utf-8-sig")
        assert "PFD" in text, name
