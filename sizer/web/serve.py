"""Starts the wizard in the browser, on this machine only unless told otherwise."""

import socket
import sys
import threading
import time
import tomllib
import urllib.request
import webbrowser
from pathlib import Path

from starlette.middleware import Middleware
from streamlit import App, net_util

from sizer.errors import BadInput, Fault
from sizer.web.gate import Gate, new_word
from sizer.web.news import ROUTE

HOST = "127.0.0.1"
EVERYWHERE = "0.0.0.0"
OWN_NAMES = ("localhost", HOST)
FIRST_PORT = 8530  # tried first; any free one serves
READY_S = 30.0

_HERE = Path(__file__).parent


def serve(port, open_browser, network=False):
    """Serves until stopped, to other machines too with `network`; returns the exit code. Raises
    BadInput, where the port asked for is out of range or taken."""
    if port is None:
        port = FIRST_PORT if _is_free(FIRST_PORT) else _free_port()
    elif not 1024 <= port <= 65535:
        raise BadInput([Fault("--port", str(port), "1024 to 65535")])
    elif not _is_free(port):
        raise BadInput([Fault("--port", str(port), "taken by another program; choose another")])
    address = f"http://localhost:{port}"
    net_util.get_external_ip = lambda: None  # it would ask a server outside for our address
    own_ip = net_util.get_internal_ip() if network else None
    word = new_word() if network else None
    print(f"The wizard is at {address}, " + (
        f"and at http://{own_ip}:{port} for every machine of this network that gives the word "
        f"{word}. What is sent is not enciphered: only on a network you trust" if network else
        "on this machine only") + "; Ctrl-C stops it.", file=sys.stderr, flush=True)
    if open_browser:
        threading.Thread(target=_open_when_ready, args=(address,), daemon=True).start()
    hosts = [*OWN_NAMES, *([own_ip] if own_ip else [])]
    App(_HERE / "app.py", routes=[ROUTE],
        middleware=[Middleware(Gate, hosts=hosts, word=word)]).run(
        config=_settings() | {
            "server.port": port, "server.address": EVERYWHERE if network else HOST,
            "server.allowedHosts": hosts, "server.headless": True})
    return 0


def _settings():
    """Our one settings file as start options, so that it counts from whatever folder we start."""
    for path in (_HERE / ".streamlit" / "config.toml",  # installed
                 _HERE.parents[1] / ".streamlit" / "config.toml"):  # checkout
        if path.is_file():
            return dict(_flat("", tomllib.loads(path.read_text("utf-8"))))
    raise FileNotFoundError(".streamlit/config.toml is missing from this installation")


def _flat(prefix, table):
    for key, value in table.items():
        if isinstance(value, dict):
            yield from _flat(f"{prefix}{key}.", value)
        else:
            yield f"{prefix}{key}", value


def _is_free(port):
    with socket.socket() as probe:
        return probe.connect_ex((HOST, port)) != 0


def _free_port():
    with socket.socket() as probe:
        probe.bind((HOST, 0))
        return probe.getsockname()[1]


def _open_when_ready(address):
    until = time.monotonic() + READY_S
    while time.monotonic() < until:
        try:
            urllib.request.urlopen(f"{address}/_stcore/health", timeout=1).close()
        except OSError:
            time.sleep(0.2)
        else:
            webbrowser.open(address)
            return
