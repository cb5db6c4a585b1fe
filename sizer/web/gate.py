"""Who may come in: host names, origins, a word for other machines, and what every answer says.

Stands before Streamlit, on every request and websocket. Who sits at this machine needs no word;
whoever comes over the network gives the one that was printed where the wizard was started.
"""

import asyncio
import hmac
import secrets
from html import escape
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs, urlsplit

from starlette.requests import ClientDisconnect

LETTERS = "bcdfghjkmnpqrstvwxyz"  # a word of these is read and typed without mistakes
WORD_LETTERS = 10  # 43 bits, with a second a try far more than anybody can try
WRONG_S = 1.0  # that a wrong word waits
COOKIE = "sizer_word"
ASKED_AT = "/word"
MOST_FORM_BYTES = 1000
MOST_BODY_BYTES = 6_500_000  # the largest upload, 5 MiB, in its frame
HERE = ("127.0.0.1", "::1")
# Of Streamlit, and of no use here: it is driven by programs, counted and logged in to there.
CLOSED = ("/_stcore/agent", "/_stcore/metrics", "/auth", "/oauth2callback")
# Streamlit sets styles in its pages and compiles small functions; else only what we serve.
POLICY = ("default-src 'self'; script-src 'self' 'unsafe-inline' 'unsafe-eval' blob:; "
          "style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; "
          "connect-src 'self'; worker-src 'self' blob:; object-src 'none'; base-uri 'self'; "
          "form-action 'self'; frame-ancestors 'none'")
HEADERS = {
    "content-security-policy": POLICY, "x-frame-options": "DENY",
    "x-content-type-options": "nosniff", "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin", "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
}
PAGE = """<!doctype html><html lang="en"><meta charset="utf-8"><title>Kayak sizer</title>
<meta name="viewport" content="width=device-width"><body>
<h1>Kayak sizer</h1><p role="alert">{said}</p>
<form method="post" action="/word"><label>The word that was printed where the wizard was started
<input name="word" autocomplete="off" autocapitalize="none" autofocus></label>
<button>Open</button></form></body></html>"""


def new_word():
    """A word that nobody guesses."""
    return "".join(secrets.choice(LETTERS) for _ in range(WORD_LETTERS))


class Gate:
    """ASGI middleware.

    Parameters
    ----------
    app : what stands behind it
    hosts : names by which the wizard may be asked for
    word : that machines other than this one have to give; None asks nobody
    """

    def __init__(self, app, hosts, word=None):
        self.app, self.hosts, self.word = app, frozenset(hosts), word
        self.token = secrets.token_urlsafe(32)  # in the cookie of who knew the word
        self.wrong = asyncio.Lock()

    async def __call__(self, scope, receive, send):
        """Lets a request through, asks for the word, or refuses."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        headers = {name.decode("latin-1"): value.decode("latin-1")
                   for name, value in scope["headers"]}
        send = _with_headers(send)
        if not self._is_ours(scope, headers):
            await _refuse(scope, send, 403, "This address is not served here.")
        elif scope["path"].startswith(CLOSED):
            await _refuse(scope, send, 404, "There is nothing here.")
        elif _length(headers) > MOST_BODY_BYTES:
            await _refuse(scope, send, 413, "That file is too large.")
        elif self.word is None or self._may_enter(scope, headers):
            await self._let_in(scope, receive, send)
        elif scope["type"] == "websocket":
            await _refuse(scope, send, 403, "")
        elif (scope["method"], scope["path"]) == ("POST", ASKED_AT):
            await self._judge(receive, send)
        else:
            await _refuse(scope, send, 401, PAGE.format(said="This wizard asks for a word."))

    async def _let_in(self, scope, receive, send):
        """A browser that leaves while it is being written to, or while it uploads, is no fault:
        what Streamlit then raises, as it closes the websocket again, would only fill the log."""
        left = False

        async def sending(message):
            nonlocal left
            try:
                await send(message)
            except OSError:
                left = True
                raise

        try:
            await self.app(scope, receive, sending)
        except ClientDisconnect:
            return
        except RuntimeError:
            if scope["type"] != "websocket" or not left:
                raise

    def _is_ours(self, scope, headers):
        host = headers.get("host", "")
        if _name(host) not in self.hosts:
            return False
        origin = headers.get("origin")
        asks = scope["type"] == "websocket" or scope["method"] not in ("GET", "HEAD", "OPTIONS")
        return not asks or origin is None or _place(origin) == host

    def _may_enter(self, scope, headers):
        if (scope.get("client") or ("",))[0] in HERE:
            return True
        try:
            given = SimpleCookie(headers.get("cookie", "")).get(COOKIE)
        except CookieError:
            return False
        return given is not None and hmac.compare_digest(given.value.encode(), self.token.encode())

    async def _judge(self, receive, send):
        """The form with the word: one wrong one at a time, each waits."""
        body, more = b"", True
        while more and len(body) <= MOST_FORM_BYTES:
            part = await receive()
            body += part.get("body", b"")
            more = part.get("more_body", False)
        given = parse_qs(body[:MOST_FORM_BYTES].decode("latin-1")).get("word", [""])[0]
        if self.wrong.locked():
            await _page(send, 429, PAGE.format(said="Too many tries at once; wait a moment."))
        elif hmac.compare_digest(given.strip().lower().encode(), self.word.encode()):
            await _page(send, 303, "", [
                (b"location", b"/"), (b"set-cookie", f"{COOKIE}={self.token}; HttpOnly; "
                                      "SameSite=Strict; Path=/".encode())])
        else:
            async with self.wrong:
                await asyncio.sleep(WRONG_S)
            await _page(send, 401, PAGE.format(said="That is not the word."))


def _name(host):
    """The name of a Host header, without its port; "" for one that is none."""
    try:
        return (urlsplit(f"//{host}").hostname or "").rstrip(".")
    except ValueError:
        return ""


def _place(origin):
    """Name and port of an Origin header; "" for one that is none."""
    try:
        return urlsplit(origin).netloc
    except ValueError:
        return ""


def _length(headers):
    """What a request says of its body's length; one that says nothing is cut off by Streamlit."""
    try:
        return int(headers.get("content-length", 0))
    except ValueError:
        return MOST_BODY_BYTES + 1


def _with_headers(send):
    async def sending(message):
        if message["type"] == "http.response.start":
            ours = [(name.encode(), value.encode()) for name, value in HEADERS.items()]
            theirs = [pair for pair in message.get("headers", ())
                      if pair[0].lower().decode("latin-1") not in HEADERS]
            message = {**message, "headers": [*theirs, *ours]}
        await send(message)

    return sending


async def _refuse(scope, send, status, text):
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": 1008})  # before it is accepted: 403
    else:
        await _page(send, status, text if text.startswith("<") else escape(text))


async def _page(send, status, text, more=()):
    body = text.encode()
    await send({"type": "http.response.start", "status": status, "headers": [
        (b"content-type", b"text/html; charset=utf-8"), (b"cache-control", b"no-store"),
        (b"content-length", str(len(body)).encode()), *more]})
    await send({"type": "http.response.body", "body": body})
