"""Servers of the tests' own: a free port, a start that waits until they answer."""

import os
import socket
import subprocess
import sys
import time
import urllib.request

READY_S = 600.0


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def started(port, log, *command, **env):
    """The process of `python -m command`, in its log's folder, once it answers on its port."""
    with log.open("ab") as out:
        server = subprocess.Popen([sys.executable, "-m", *command], cwd=log.parent, stdout=out,
                                  stderr=subprocess.STDOUT,
                                  env={**os.environ, "HOME": str(log.parent), **env})
    until = time.monotonic() + READY_S
    while True:
        try:
            urllib.request.urlopen(f"http://127.0.0.1:{port}/_stcore/health", timeout=1).close()
            return server
        except OSError:
            assert server.poll() is None, log.read_text()
            assert time.monotonic() < until, log.read_text()
            time.sleep(0.1)


def started_wizard(port, log, *options, program="sizer", **env):
    """The wizard, started as the README says but for its port, with a book beside its log; or
    another program of this folder in its place."""
    return started(port, log, program, "--port", str(port), "--no-browser", *options,
                   **{"SIZER_BOOK": str(log.parent / "book"), **env})
