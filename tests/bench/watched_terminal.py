"""A terminal that tells the CPU time of its process once all that is waited for was written to it, and ends it."""

from __future__ import annotations

import os
import sys
import time

from textual.drivers.headless_driver import HeadlessDriver

WAITED_FOR = "STOCKROOM_WAITED_FOR"
"""The variable that names it, a text a line."""


class Terminal(HeadlessDriver):
    """Only looks at what is written."""

    is_headless = False
    _written = ""
    _told = False

    def write(self, data: str) -> None:
        self._written += data
        if not self._told and all(text in self._written for text in os.environ[WAITED_FOR].split("\n")):
            print(time.process_time(), file=sys.__stdout__, flush=True)
            self._told = True
            self._app.exit()
