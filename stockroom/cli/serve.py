"""`serve`: the same screens in a browser, for a tablet at the sink."""

from __future__ import annotations

import click

from stockroom.cli.output import json_option
from stockroom.cli.session import Session
from stockroom.errors import BadInput, Refused

ADVICE = (
    "Anyone who reaches this address can book and read everything: there is no password. Put a proxy with a password "
    "and TLS before it, and open it in a network of your own only."
)


@click.command()
@click.option("--host", default="127.0.0.1", metavar="ADDRESS", help="Where it answers (else this machine only).")
@click.option("--port", default=8000, type=click.IntRange(1, 65535), show_default=True, help="The port.")
@click.option("--open-to-network", is_flag=True, help="Let other machines open it. There is no password.")
@json_option
@click.pass_obj
def serve(session: Session, host: str, port: int, open_to_network: bool) -> None:
    """Open the screens in a browser: stockroom serve, then http://127.0.0.1:8000. Ctrl+C ends it.

    Each tab is a window of its own; labels and sheets arrive as downloads. It needs the extra `browser`.
    """
    try:
        from stockroom.tui.browser import Browser, is_loopback
    except ImportError:
        raise BadInput("The browser is an extra: pip install 'stockroom[browser]'.") from None
    if not is_loopback(host) and not open_to_network:
        raise Refused(f"{host} can be reached by other machines. Say --open-to-network if that is meant. {ADVICE}")
    path = session.store.path
    session.store.close()  # each tab opens it for itself
    arguments = ["--db", str(path)]
    arguments += ["--by", session.by] if session.by else []
    arguments += ["--on", session.on] if session.on else []

    def told() -> None:
        address = f"[{host}]" if ":" in host else host
        url = f"http://{address}:{port}"
        session.document({"url": url, "host": host, "port": port, "open_to_network": not is_loopback(host)})
        session.say(f"The stockroom is at {url} until Ctrl+C.")
        if not is_loopback(host):
            session.warn(ADVICE)

    Browser([*arguments, "screens"], host, port, told).serve()
