"""The screens in a terminal of their own, driven by keys, to be killed or cut off at any moment."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from pathlib import Path

ROOT = Path(__file__).parents[1]
_ESCAPES = re.compile(r"\x1b\[[0-9;?:<>=]*[ -/]*[@-~]|\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)|\x1b[PX^_].*?\x1b\\|\x1b.")


class Terminal:
    """One run of the screens; what it wrote is kept as text, without its escape codes."""

    def __init__(self, file: Path, *, home: Path, on: str) -> None:
        self._master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 30, 100, 0, 0))
        command = "from stockroom.cli.main import run; run()"
        self._process = subprocess.Popen(
            [sys.executable, "-c", command, "--db", str(file), "--by", "AB", "--on", on, "screens"],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            start_new_session=True,
            env={**os.environ, "PYTHONPATH": str(ROOT), "XDG_STATE_HOME": str(home), "TERM": "xterm"},
            preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0),
        )
        os.close(slave)
        self._written = b""
        self._seen = 0

    @property
    def text(self) -> str:
        """What it wrote since the last key, as text on one line."""
        return " ".join(_ESCAPES.sub(" ", self._written[self._seen :].decode("utf-8", "replace")).split())

    def sees(self, *words: str, within: float = 60) -> None:
        """Read until all of these were written; fail with what was written instead."""
        deadline = time.monotonic() + within
        while not all(each in self.text for each in words):
            assert time.monotonic() < deadline, f"waited in vain for {words}; written was: {self.text[-3000:]}"
            if select.select([self._master], [], [], 0.2)[0]:
                try:
                    self._written += os.read(self._master, 65536)
                except OSError:
                    raise AssertionError(f"it ended before it wrote {words}: {self.text[-3000:]}") from None

    def type(self, keys: str) -> None:
        """Send keys as a terminal does."""
        self._seen = len(self._written)
        os.write(self._master, keys.encode())

    def kill(self) -> None:
        """End it with SIGKILL; nothing of it runs after that."""
        self._process.kill()
        self._end()

    def hang_up(self) -> None:
        """Close the terminal under it, as closing a window or a pane does."""
        os.close(self._master)
        self._master = -1
        self._end()

    def _end(self) -> None:
        try:
            self._process.wait(timeout=30)
        except subprocess.TimeoutExpired:
            os.killpg(self._process.pid, signal.SIGKILL)
            raise AssertionError("it went on without a terminal") from None
        finally:
            if self._master >= 0:
                os.close(self._master)
                self._master = -1
