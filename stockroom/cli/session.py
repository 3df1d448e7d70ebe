"""One run of the command line: which stockroom, who, and what moment counts as now."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

import click

from stockroom.cli.output import Command, Output
from stockroom.errors import BadInput
from stockroom.paths import database_path, settings_path
from stockroom.store.open import Store, open_store
from stockroom.store.stockroom_settings import setting

if TYPE_CHECKING:
    from stockroom.domain.occasion import Occasion
    from stockroom.domain.studio import Person
    from stockroom.settings import Settings


class Session(Output):
    """The object that every command gets (`@click.pass_obj`)."""

    def __init__(self) -> None:
        super().__init__()
        self.db: str | None = None
        self.by: str | None = None
        self.on: str | None = None

    @cached_property
    def settings(self) -> Settings:
        from stockroom.settings import read_settings

        return read_settings(settings_path())

    @cached_property
    def path(self) -> Path:
        return database_path(self.db, None if self.db else self.settings.database)

    @cached_property
    def store(self) -> Store:
        """The stockroom, opened when a command first asks for it."""
        store = open_store(self.path)
        click.get_current_context().find_root().call_on_close(store.close)
        if self.by:
            from stockroom.store.studio import find_person

            find_person(store, self.by)  # unknown initials are refused, even where nothing is booked
        return store

    @cached_property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(setting(self.store, "time_zone"))

    @cached_property
    def currency(self) -> str:
        return setting(self.store, "currency")

    @cached_property
    def now(self) -> datetime:
        """The moment taken as now, with its zone."""
        return datetime.now(UTC) if self.on is None else self._moment(self.zone)

    def _moment(self, zone: ZoneInfo) -> datetime:
        if self.on is None:
            return datetime.now(UTC)
        from stockroom.science.days import read_moment

        return read_moment(self.on, zone=zone, today=datetime.now(zone).date())

    @property
    def local(self) -> datetime:
        return self.now.astimezone(self.zone)

    def occasion(self, day: str | None = None, why: str | None = None) -> Occasion:
        """Say who books, and when it happened.

        Who: --by, else the settings' initials, else the one person there is. Raises BadInput where that leaves
        several people or someone retired, or for a day still to come.
        """
        from stockroom.cli.progressing import shown_on
        from stockroom.domain.occasion import Occasion
        from stockroom.soundness import check_once_a_day

        person = self._who_books(self.store)
        if trouble := check_once_a_day(self.store, shown_on(self)):
            self.warn(trouble)
        at = self.now
        if day is not None:
            from stockroom.science.days import read_moment

            at = read_moment(day, zone=self.zone, today=self.local.date())
            # A day alone is told as noon: on the day itself it means now, before noon as after it.
            if at.astimezone(self.zone).date() == self.local.date() and "T" not in day.upper():
                at = self.now
            if at > self.now:
                raise BadInput(f"{day} is still to come. Something is booked when it has happened.")
            self.warn_where_closed(at.astimezone(self.zone).date().isoformat())
        return Occasion(by=person.initials, now=self.now, at=at, zone=self.zone, reason=why)

    def occasion_in(self, store: Store, why: str | None) -> Occasion:
        """Say who books now in a stockroom that is not yet the one to be used, such as a copy to be put back."""
        from stockroom.domain.occasion import Occasion

        zone = ZoneInfo(setting(store, "time_zone"))
        now = self._moment(zone)
        return Occasion(by=self._who_books(store).initials, now=now, at=now, zone=zone, reason=why or None)

    def warn_where_closed(self, day: str) -> None:
        """Say of something that belongs to a closed day that it is booked today."""
        from stockroom.store.stockroom_settings import closed_until

        closed = closed_until(self.store)
        if closed is not None and day <= closed:
            self.warn(f"The books are closed up to {closed}: this is booked today, naming {day}.")

    def _who_books(self, store: Store) -> Person:
        from stockroom.store.studio import all_people, find_person

        initials = self.by or self.settings.by
        if initials:
            person = find_person(store, initials)
            if person.retired_on:
                raise BadInput(
                    f"{person.initials} ({person.name}) retired on {person.retired_on} and books nothing more."
                )
            return person
        working = [person for person in all_people(store) if person.retired_on is None]
        if len(working) == 1:
            return working[0]
        known = ", ".join(f"{person.initials} {person.name}" for person in working)
        raise BadInput(
            f"Who is booking this? Say --by INITIALS before the command (here: {known}), or keep them in the settings "
            f'({settings_path()}: by = "AB").'
        )


def day_option(command: Command) -> Command:
    """Add --day: when it happened."""
    return click.option("--day", metavar="DATE[THH:MM]", help="When it happened, if not now.")(command)


def why_option(command: Command) -> Command:
    """Add --why: the reason."""
    return click.option("--why", metavar="REASON", help="The reason, in your own words.")(command)


def dry_run_option(command: Command) -> Command:
    """Add --dry-run: show the plan, book nothing."""
    return click.option("--dry-run", is_flag=True, help="Show what would be booked; book nothing.")(command)


def booking_options(command: Command) -> Command:
    """Add --day, --why and --dry-run to a command that books something."""
    return day_option(why_option(dry_run_option(command)))
