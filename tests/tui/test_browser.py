"""The screens in a browser: on this machine only, from their own page only, files as downloads."""

from __future__ import annotations

import asyncio
import json
import re
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import Any

import pytest
from aiohttp import ClientWebSocketResponse, WSMsgType
from aiohttp.test_utils import TestClient, TestServer

from stockroom.store.open import Store
from stockroom.tui.browser import Browser, command_of, is_loopback


@asynccontextmanager
async def served(store: Store, host: str = "127.0.0.1") -> AsyncIterator[TestClient]:
    browser = Browser(["--db", str(store.path), "screens"], host, 8000, lambda: None)
    async with TestClient(TestServer(await browser._make_app(), host="127.0.0.1")) as client:
        yield client


@pytest.mark.parametrize("host", ["127.0.0.1", "127.8.8.8", "::1", "[::1]", "localhost", "LocalHost"])
def test_what_only_this_machine_reaches_is_loopback(host: str) -> None:
    assert is_loopback(host)


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.168.1.5", "example.org", "localhost.example.org", ""])
def test_what_others_may_reach_is_not(host: str) -> None:
    assert not is_loopback(host)


def test_no_part_of_a_path_is_a_command_for_the_shell() -> None:
    assert "'/tmp/a; rm -rf x.db'" in command_of(["--db", "/tmp/a; rm -rf x.db", "screens"])


async def test_the_page_asks_nothing_of_any_other_machine(store: Store) -> None:
    async with served(store) as client:
        page = await client.get("/")
        text = await page.text()
        assert page.status == 200
        assert "Opening the stockroom" in text
        assert not re.findall(r"https?://", text)
        assert "default-src 'self'" in page.headers["Content-Security-Policy"]


async def test_another_page_can_neither_open_it_nor_reach_it_under_another_name(store: Store) -> None:
    async with served(store) as client:
        for headers in ({"Origin": "http://example.org"}, {"Host": "example.org"}, {"Origin": "null"}):
            assert (await client.get("/", headers=headers)).status == 403
            assert (await client.get("/ws", headers=headers)).status == 403
        own = f"http://{client.host}:{client.port}"
        assert (await client.get("/", headers={"Origin": own})).status == 200


async def test_open_to_the_network_it_answers_under_any_name_but_to_its_own_page_only(store: Store) -> None:
    async with served(store, host="0.0.0.0") as client:
        assert (await client.get("/", headers={"Host": "studio.lan"})).status == 200
        foreign = {"Host": "studio.lan", "Origin": "http://example.org"}
        assert (await client.get("/ws", headers=foreign)).status == 403


class Tab:
    """One tab: what it was sent, and keys typed into it."""

    def __init__(self, socket: ClientWebSocketResponse) -> None:
        self.socket, self.drawn, self.told = socket, b"", list[list[str]]()

    async def until(self, *words: str) -> None:
        """Read until all these words were drawn since the last keys."""
        async with asyncio.timeout(60):
            while not all(word.encode() in self.drawn for word in words):
                await self._read()

    async def file(self) -> str:
        """Read until a file is offered, and return its key."""
        async with asyncio.timeout(60):
            while not any(each[0] == "deliver_file_start" for each in self.told):
                await self._read()
        return next(each[1] for each in self.told if each[0] == "deliver_file_start")

    async def _read(self) -> None:
        message = await self.socket.receive()
        assert message.type in (WSMsgType.BINARY, WSMsgType.TEXT), message
        if message.type == WSMsgType.BINARY:
            self.drawn += message.data
        else:
            self.told.append(json.loads(message.data))

    async def type(self, keys: str) -> None:
        self.drawn = b""
        await self.socket.send_json(["stdin", keys])


@pytest.fixture
async def ended(monkeypatch: pytest.MonkeyPatch) -> AsyncIterator[None]:
    """Wait at the end until every process of a tab has ended, while the loop that watches it still runs."""
    begun: list[asyncio.subprocess.Process] = []
    begin = asyncio.create_subprocess_shell

    async def keep(*arguments: Any, **options: Any) -> asyncio.subprocess.Process:
        begun.append(await begin(*arguments, **options))
        return begun[-1]

    monkeypatch.setattr(asyncio, "create_subprocess_shell", keep)
    yield
    assert begun
    for process in begun:
        await asyncio.wait_for(process.wait(), 30)
        process._transport.close()  # type: ignore[attr-defined]


async def test_a_tab_shows_the_same_screens_and_a_label_comes_as_a_download(ended, store: Store, stocked) -> None:
    async with served(store) as client, client.ws_connect("/ws?width=100&height=30") as socket:
        tab = Tab(socket)
        await tab.until("looking 14 days ahead", stocked["old"])
        await tab.type("L")
        await tab.until("Which code?")
        await tab.type(f"{stocked['jar'][1:]}\r")
        await tab.until("What was done", "Label")  # the key is offered once the lot was read
        await tab.type("l")
        await tab.until("As it will print", "Save as PDF")
        await tab.type("s")
        download = await client.get(f"/download/{await tab.file()}")
        assert download.headers["Content-Disposition"] == f"attachment; filename=label-{stocked['jar']}.pdf"
        assert (await download.read()).startswith(b"%PDF")
