"""The screens in a browser: a process of them for each tab, on this machine only unless told otherwise.

There is no login. What keeps others out is the loopback address, and that a page from elsewhere can neither open the
connection (its origin is compared) nor reach it under another name (the name asked for is compared).
"""

from __future__ import annotations

import shlex
import subprocess
import sys
from collections.abc import Awaitable, Callable, Sequence
from ipaddress import ip_address
from pathlib import Path
from urllib.parse import urlsplit

from aiohttp import web
from textual_serve.server import Server

from stockroom.errors import BadInput

PAGE = Path(__file__).parent / "browser_page"
HEADERS = {
    "Content-Security-Policy": "default-src 'self'; script-src 'self' 'unsafe-inline'; "
    "style-src 'self' 'unsafe-inline'; img-src 'self' data:; frame-ancestors 'none'",
    "Cache-Control": "no-store",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}
_START = "from stockroom.cli.main import run; run()"

Handler = Callable[[web.Request], Awaitable[web.StreamResponse]]


def is_loopback(host: str) -> bool:
    """Say whether only this machine can reach an address or name."""
    if host.lower() == "localhost":
        return True
    try:
        return ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return False


def command_of(arguments: Sequence[str]) -> str:
    """Write the command that opens the screens, with these arguments, for the shell that starts it."""
    parts = [sys.executable, "-P", "-c", _START, *arguments]
    return subprocess.list2cmdline(parts) if sys.platform == "win32" else shlex.join(parts)


class Browser(Server):
    """Serves the screens; refuses what was not opened from its own page."""

    def __init__(self, arguments: Sequence[str], host: str, port: int, told: Callable[[], None]) -> None:
        """Serve the screens opened with these arguments; `told` is called once it answers."""
        super().__init__(command_of(arguments), host=host, port=port, title="Stockroom", templates_path=PAGE)
        self._told = told
        self._open = not is_loopback(host)

    async def _make_app(self) -> web.Application:
        app: web.Application = await super()._make_app()
        app.middlewares.append(self._guard)
        app.on_response_prepare.append(_add_headers)
        return app

    @web.middleware
    async def _guard(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        """Refuse a name this machine was not asked under, and a connection begun by another page."""
        asked = urlsplit(f"//{request.host}").hostname or ""
        if not (self._open or is_loopback(asked)):
            raise web.HTTPForbidden(text="The stockroom answers on this machine only.")
        origin = request.headers.get("Origin")
        if origin is not None and urlsplit(origin).netloc != request.host:
            raise web.HTTPForbidden(text="The stockroom is opened from its own page only.")
        return await handler(request)

    async def on_startup(self, app: web.Application) -> None:
        """Say nothing yet: the port is not had before all of this is done."""

    def serve(self, debug: bool = False) -> None:
        """Answer until it is stopped. Raises BadInput where the port cannot be had."""
        try:
            web.run_app(
                self._make_app(), host=self.host, port=self.port, print=lambda *_: self._told(), access_log=None
            )
        except OSError as error:
            why = error.strerror or str(error)
            raise BadInput(f"{self.host}:{self.port} cannot be had ({why}). Name another port with --port.") from error


async def _add_headers(request: web.Request, response: web.StreamResponse) -> None:
    response.headers.update(HEADERS)
