"""Build the demo stockroom by doing, one after another, what the files beside this one tell."""

from __future__ import annotations

import os
import tomllib
from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from importlib.resources import files
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from demo_db.buying import buying_plays
from demo_db.safety import safety_plays
from demo_db.weighing import weighing_plays
from stockroom.actions.beginning import begin
from stockroom.actions.bookings import book
from stockroom.actions.bringing_back import bring_back
from stockroom.actions.checking import check
from stockroom.actions.counting import count
from stockroom.actions.discarding import discard
from stockroom.actions.drawing import Choices
from stockroom.actions.jobs import close_job, new_job
from stockroom.actions.judging import Readings
from stockroom.actions.making import make
from stockroom.actions.materials import edit_material
from stockroom.actions.measures import new_measure
from stockroom.actions.moving import move
from stockroom.actions.open_days import close
from stockroom.actions.opening import open_lot
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.studio import new_person, new_place
from stockroom.actions.taking import take
from stockroom.actions.undoing import undo
from stockroom.actions.using import use
from stockroom.domain.occasion import Occasion
from stockroom.errors import AlreadyExists
from stockroom.science.money import read_money
from stockroom.store.lots import lots_of_materials
from stockroom.store.materials import find_material
from stockroom.store.open import Store, open_store

Event = dict[str, Any]

FILES = ("deliveries.toml", "orders.toml", "treatments.toml", "jars.toml", "shelf.toml")
"""Of what happened at the same minute, the earlier file comes first."""


def build_demo(path: Path, now: datetime) -> None:
    """Make the demo stockroom at `path`, as if its year ended at `now` (with its zone).

    It is built beside its place and put there whole. Raises AlreadyExists where something is there; on any failure
    no file is left.
    """
    _refuse_there(path)
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        _build(beside, now)
        _put(beside, path)
    finally:
        beside.unlink(missing_ok=True)


def _build(path: Path, now: datetime) -> None:
    studio = _read("studio.toml")
    first, *others = studio["person"]
    begin(
        path,
        initials=first["initials"],
        name=first["name"],
        currency=studio["currency"],
        time_zone=studio["time_zone"],
    )
    with open_store(path) as store:
        for person in others:
            new_person(store, person["initials"], person["name"])
        for place in studio["place"]:
            new_place(store, place["name"], place.get("note"))
        for measure in studio["measure"]:
            new_measure(store, **measure)
        year = _Year(store, now, studio)
        for number, event in enumerate(_events()):
            year.play(number, event)


def _refuse_there(path: Path) -> None:
    if path.exists():
        raise AlreadyExists(f"{path} exists already and is never overwritten. Choose another name.")


def _put(built: Path, path: Path) -> None:
    """Move a file to where nothing is: the name is taken first, so that no other file is ever replaced."""
    try:
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    except FileExistsError:
        _refuse_there(path)
    os.replace(built, path)


def _events() -> list[Event]:
    """Return the year in order: by day and time of day, what is told in hours before now last."""
    events = [event for name in FILES for event in _read(name)["event"]]
    return sorted(events, key=lambda event: (event.get("day", 0), event.get("at", "24:00")))


def _read(name: str) -> dict[str, Any]:
    return tomllib.loads((files("demo_db") / name).read_text("utf-8"))


class _Year:
    """Plays the events, and remembers what each name in the file stands for."""

    def __init__(self, store: Store, now: datetime, studio: dict[str, Any]) -> None:
        self.store = store
        self.zone = ZoneInfo(studio["time_zone"])
        self.now = now.astimezone(self.zone)
        self.currency: str = studio["currency"]
        self.suppliers: dict[str, str] = studio["supplier"]
        self.people = [person["initials"] for person in studio["person"]]
        self.names: dict[str, str] = {}

    def play(self, number: int, event: Event) -> None:
        plays: dict[str, Callable[[Event, Occasion], str | None]] = {
            "receive": self._receive,
            "open": self._open,
            "move": self._move,
            "make": self._make,
            "check": self._check,
            "use": self._use,
            "take": self._take,
            "lend": self._lend,
            "bring_back": self._bring_back,
            "count": self._count,
            "clear": self._clear,
            "undo": self._undo,
            "job": self._job,
            "close": self._close,
            "book": self._book,
            "least": self._least,
            "closed": self._closed,
            **buying_plays(self.store, self.currency, self.suppliers, self.names),
            **weighing_plays(self.store, self.names),
            **safety_plays(self.store, self.names),
        }
        occasion = self._occasion(number, event)
        named = plays[event["do"]](event, occasion)
        if "as" in event and named:
            self.names[event["as"]] = named

    def _occasion(self, number: int, event: Event) -> Occasion:
        if "hours" in event:
            at = self.now + timedelta(hours=event["hours"])
        else:
            at = datetime.combine(self._day(event["day"]), time.fromisoformat(event["at"]), self.zone)
        at = min(at, self.now).astimezone(UTC)
        by = self.people[number % len(self.people)]
        return Occasion(by=by, now=at, at=at, zone=self.zone, reason=event.get("reason"))

    def _day(self, days: int) -> date:
        return self.now.date() + timedelta(days=days)

    def _first_of(self, event: Event, codes: tuple[str | None, ...]) -> str | None:
        """Name the second lot and on `name/2`, `name/3` …; return the first."""
        for number, code in enumerate(codes[1:], start=2):
            if "as" in event and code:
                self.names[f"{event['as']}/{number}"] = code
        return codes[0]

    def _receive(self, event: Event, occasion: Occasion) -> str | None:
        use_by = self._day(event["use_by_days"]).isoformat() if "use_by_days" in event else None
        came = receive(
            self.store,
            occasion,
            Delivery(
                material=event["material"],
                quantity=event["quantity"],
                cost=read_money(event["cost"], self.currency),
                supplier=self.suppliers[event["supplier"]],
                lot_number=event.get("lot_number"),
                place=event.get("place"),
                use_by=use_by,
            ),
        )
        return self._first_of(event, came.codes)

    def _open(self, event: Event, occasion: Occasion) -> str | None:
        return open_lot(self.store, occasion, self.names[event["lot"]]).action

    def _move(self, event: Event, occasion: Occasion) -> str | None:
        return move(self.store, occasion, self.names[event["lot"]], event["to"]).action

    def _check(self, event: Event, occasion: Occasion) -> str | None:
        values: dict[str, str] = {
            name: event[name] for name in ("reading", "error", "sample", "acid", "used", "temperature") if name in event
        }
        readings = Readings(method=event["method"], values=values, sample=event.get("sample"))
        return check(self.store, occasion, self.names[event["lot"]], readings).action

    def _make(self, event: Event, occasion: Occasion) -> str | None:
        made = make(
            self.store, occasion, event["recipe"], event["quantity"], into=event.get("into"), place=event.get("place")
        )
        return self._first_of(event, made.codes)

    def _use(self, event: Event, occasion: Occasion) -> str | None:
        lots: tuple[str, ...] = ()
        if "lots_of" in event:
            material = find_material(self.store, event["lots_of"])
            lots = tuple(lot.code for lot in lots_of_materials(self.store, [material.id])[-1:])
        used = use(
            self.store,
            occasion,
            event["recipe"],
            self.names[event["job"]],
            fill=event.get("fill"),
            fills=event.get("fills"),
            objects=tuple(event.get("objects", ())),
            choices=Choices(lots=lots),
            booking=self.names[event["booking"]] if "booking" in event else None,
            tested=event.get("tested", occasion.by),
        )
        return used.action

    def _take(self, event: Event, occasion: Occasion) -> str | None:
        job = self.names[event["job"]] if "job" in event else None
        taken = take(
            self.store,
            occasion,
            self.names[event["lot"]],
            event["quantity"],
            job=job,
            objects=tuple(event.get("objects", ())),
            reason=event.get("reason"),
            keep_offcuts=tuple(event.get("keep", ())),
        )
        return taken.action

    def _lend(self, event: Event, occasion: Occasion) -> str | None:
        back = self._day(event["back_days"]).isoformat()
        lent = take(
            self.store,
            occasion,
            self.names[event["lot"]],
            event["quantity"],
            reason="lent",
            to_whom=event["to"],
            back_on=back,
        )
        return lent.action

    def _bring_back(self, event: Event, occasion: Occasion) -> str | None:
        back = bring_back(
            self.store, occasion, self.names[event["lot"]], event["quantity"], job=self.names[event["job"]]
        )
        return back.action

    def _count(self, event: Event, occasion: Occasion) -> str | None:
        return count(self.store, occasion, self.names[event["lot"]], event["quantity"]).action

    def _clear(self, event: Event, occasion: Occasion) -> str | None:
        """Throw away whatever is left of a material, or only its jars in one state."""
        material = find_material(self.store, event["material"])
        for lot in lots_of_materials(self.store, [material.id]):
            if event.get("only", lot.state) == lot.state:
                discard(self.store, occasion, lot.code)
        return None

    def _undo(self, event: Event, occasion: Occasion) -> str | None:
        return undo(self.store, occasion, self.names[event["of"]]).action

    def _job(self, event: Event, occasion: Occasion) -> str | None:
        job = new_job(self.store, event["title"], today=occasion.day, client=event["client"], objects=event["objects"])
        return job.code

    def _close(self, event: Event, occasion: Occasion) -> str | None:
        close_job(self.store, occasion, self.names[event["job"]])
        return None

    def _book(self, event: Event, occasion: Occasion) -> str | None:
        booked = book(
            self.store,
            event["recipe"],
            self.names[event["job"]],
            self._day(event["for_days"]),
            today=occasion.day,
            fill=event.get("fill"),
            fills=event.get("fills"),
        )
        return booked.booking.code

    def _closed(self, event: Event, occasion: Occasion) -> str | None:
        first, last = (self._day(event[end]).isoformat() for end in ("from_days", "to_days"))
        close(self.store, occasion, first, last, note=event["note"])
        return None

    def _least(self, event: Event, occasion: Occasion) -> str | None:
        edit_material(self.store, occasion, event["material"], {"low": event["least"]})
        return None
