"""Forms that were begun and not booked, kept in the state folder so that nothing typed is lost.

A draft is a sheet of paper on the bench: every window of this machine sees the same one, and booking it takes it away.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict, dataclass, field, replace
from datetime import datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from stockroom.paths import state_folder
from stockroom.store.open import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """One form as it was left."""

    form: str
    known: dict[str, str]
    """What it was opened with; tells it from others of the same form."""
    answers: dict[str, str]
    at: str
    """Local minute at which it was last changed."""
    progress: dict[str, Any] = field(default_factory=dict)
    """How far its steps were gone through."""
    words: dict[str, str] = field(default_factory=dict)
    """The answers as they are shown."""
    confirmed: dict[str, Any] | None = None
    """Who confirmed it, and the number of what they had booked last: it may be booked, if nobody was told."""

    @property
    def begun(self) -> bool:
        """Whether anything was answered that it was not opened with."""
        return bool(self.progress) or any(self.known.get(key) != value for key, value in self.answers.items())


class Drafts:
    """The drafts of one stockroom."""

    def __init__(self, stockroom: Path, local: Callable[[], datetime]) -> None:
        name = hashlib.sha256(str(stockroom.resolve()).encode()).hexdigest()[:16]
        self._folder, self._local = state_folder() / "drafts" / name, local

    def _path(self, form: str, known: Mapping[str, str]) -> Path:
        key = json.dumps([form, sorted(known.items())], ensure_ascii=False)
        return self._folder / f"{hashlib.sha256(key.encode()).hexdigest()[:24]}.json"

    def keep(
        self,
        form: str,
        known: Mapping[str, str],
        answers: Mapping[str, str],
        words: Mapping[str, str],
        progress: Mapping[str, Any] | None = None,
    ) -> None:
        """Keep a form as it is now; without `progress`, what was kept of it stays. An empty one is not kept.

        A state folder that cannot be written costs the draft, never the work.
        """
        before = self.read(form, known)
        if progress is not None:
            went = dict(progress)
        else:  # steps of another recipe are not these
            same = before is not None and before.progress.get("recipe") == answers.get("recipe")
            went = before.progress if before and same else {}
        draft = Draft(
            form=form,
            known=dict(known),
            answers=dict(answers),
            at=f"{self._local():%Y-%m-%dT%H:%M}",
            progress=went,
            words=dict(words),
        )
        if before and (before.answers, before.progress) == (draft.answers, draft.progress):
            return
        if draft.begun:
            self._write(draft)
        else:
            self.forget(form, known)

    @contextmanager
    def being_booked(self, form: str, known: Mapping[str, str], store: Store, by: str) -> Iterator[None]:
        """Note of a form that it is being booked, until it is told whether it was.

        A window that is killed in between leaves it noted: then `booked_since` tells what may have come of it.
        """
        draft = self.read(form, known)
        if draft is None:
            yield
            return
        from stockroom.store.history import actions_of_person

        last = actions_of_person(store, by, 1)
        self._write(replace(draft, confirmed={"by": by, "last": last[0].number if last else 0}))
        try:
            yield
        except BaseException:
            self._write(draft)
            raise

    def _write(self, draft: Draft) -> None:
        path = self._path(draft.form, draft.known)
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            part = path.with_suffix(".part")
            part.touch(mode=0o600)
            part.write_text(json.dumps(asdict(draft), ensure_ascii=False), encoding="utf-8", errors="surrogatepass")
            os.replace(part, path)
        except OSError:
            return

    def read(self, form: str, known: Mapping[str, str]) -> Draft | None:
        """Return what was kept of a form; None where nothing was, or it cannot be read."""
        return _read(self._path(form, known))

    def forget(self, form: str, known: Mapping[str, str]) -> None:
        self._path(form, known).unlink(missing_ok=True)

    def all(self) -> list[Draft]:
        """Return the forms that were begun and not booked, newest first."""
        found = [draft for path in self._folder.glob("*.json") if (draft := _read(path)) is not None]
        return sorted((draft for draft in found if draft.begun), key=lambda draft: draft.at, reverse=True)


def _read(path: Path) -> Draft | None:
    try:
        return Draft(**json.loads(path.read_text("utf-8", errors="surrogatepass")))
    except (OSError, ValueError, TypeError):
        return None


def booked_since(store: Store, draft: Draft, zone: ZoneInfo) -> str | None:
    """Say what was booked first after a form was confirmed and nobody was told of it; None where nothing was.

    It may be that form: whoever goes on with it should look first.
    """
    if draft.confirmed is None:
        return None
    from stockroom.actions.telling import tell
    from stockroom.store.history import actions_of_person

    by, last = str(draft.confirmed.get("by")), draft.confirmed.get("last", 0)
    later = [done for done in actions_of_person(store, by, 50) if done.number > last]
    if not later:
        return None
    told = tell(store, later[-1], zone)
    return f"{by}, {told.when}: {told.words}"
