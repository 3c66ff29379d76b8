"""Who may talk to the app: pages of its own alone, and from other machines only with the token."""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable, MutableMapping
from http.cookies import CookieError, SimpleCookie
from typing import Any
from urllib.parse import parse_qs, urlsplit

Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[MutableMapping[str, Any]]]
Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]
Application = Callable[[Scope, Receive, Send], Awaitable[None]]

COOKIE = "hushwright_token"
_LOCAL = ("127.0.0.1", "localhost", "[::1]")
_HEADERS = (
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"no-referrer"),
    (
        b"content-security-policy",
        b"default-src 'self'; script-src 'self' 'unsafe-inline' 'unsafe-eval'; style-src 'self' 'unsafe-inline'; "
        b"img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self' ws: wss:; object-src 'none'; "
        b"base-uri 'self'; form-action 'self'; frame-ancestors 'none'",
    ),
)


class Gate:
    """ASGI middleware: refuses foreign hosts, foreign origins and missing tokens, for pages and sockets alike.

    Without a token only names of this machine are answered, so that no web page can reach in by a name of its own.
    """

    def __init__(self, app: Application, *, token: str = "") -> None:
        self.app = app
        self.token = token

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or answer why not."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        headers = {name.decode("latin-1").lower(): value.decode("latin-1") for name, value in scope["headers"]}
        refusal = self._refusal(headers, scope)
        if refusal:
            await _refuse(scope, receive, send, refusal)
            return
        await self.app(scope, receive, self._marked(send, scope))

    def _refusal(self, headers: dict[str, str], scope: Scope) -> str:
        host = headers.get("host", "")
        if not self.token and _name_of(host) not in _LOCAL:
            return "This name is not answered. Open the address that `hushwright open` prints."
        origin = headers.get("origin")
        if origin is not None and urlsplit(origin).netloc.lower() != host.lower():
            return "Requests of other sites are not answered."
        if self.token and not (_same(_in_query(scope), self.token) or _same(_in_cookie(headers), self.token)):
            return "The token is missing. Open the whole address that `hushwright open` prints."
        return ""

    def _marked(self, send: Send, scope: Scope) -> Send:
        """Add headers that keep other sites out, and remember the token so that addresses need not carry it on."""
        wanted = list(_HEADERS) if scope["type"] == "http" else []
        if self.token and scope["type"] == "http" and _same(_in_query(scope), self.token):
            cookie = f"{COOKIE}={self.token}; HttpOnly; SameSite=Strict; Path=/"
            wanted.append((b"set-cookie", cookie.encode("latin-1")))

        async def marked(message: MutableMapping[str, Any]) -> None:
            if message["type"] == "http.response.start":
                message = {**message, "headers": [*message.get("headers", []), *wanted]}
            await send(message)

        return marked


def _name_of(host: str) -> str:
    if host.startswith("["):
        return host.partition("]")[0].lower() + "]"
    return host.rpartition(":")[0].lower() if ":" in host else host.lower()


def _same(one: str, other: str) -> bool:
    return hmac.compare_digest(one.encode("utf-8", "replace"), other.encode("utf-8"))


def _in_query(scope: Scope) -> str:
    query = parse_qs(scope.get("query_string", b"").decode("latin-1"))
    return str(query.get("token", [""])[0])


def _in_cookie(headers: dict[str, str]) -> str:
    try:
        found = SimpleCookie(headers.get("cookie", "")).get(COOKIE)
    except CookieError:
        return ""
    return str(found.value) if found is not None else ""


async def _refuse(scope: Scope, receive: Receive, send: Send, reason: str) -> None:
    if scope["type"] == "websocket":
        await receive()
        await send({"type": "websocket.close", "code": 1008, "reason": reason[:120]})
        return
    await send(
        {"type": "http.response.start", "status": 403, "headers": [(b"content-type", b"text/plain; charset=utf-8")]}
    )
    await send({"type": "http.response.body", "body": reason.encode("utf-8")})
