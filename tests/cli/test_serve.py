"""`serve`: this machine only, unless the person says that others may come in, and is told what that means."""

from __future__ import annotations

import pytest


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.5", "::", "studio.example"])
def test_wider_than_this_machine_is_refused_with_advice(stockroom, host: str) -> None:
    ran = stockroom("serve", "--host", host)
    assert ran.code == 1
    assert "--open-to-network" in ran.err
    assert "proxy with a password" in ran.err
    assert not ran.out


def test_a_stockroom_that_is_not_there_is_told_before_anything_answers(stockroom, tmp_path) -> None:
    ran = stockroom("--db", str(tmp_path / "nothing.db"), "serve")
    assert ran.code == 3


def test_a_port_that_is_taken_is_told_in_words(stockroom) -> None:
    import socket

    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        ran = stockroom("serve", "--port", str(taken.getsockname()[1]))
    assert ran.code == 2
    assert "Name another port with --port" in ran.err
    assert not ran.out
