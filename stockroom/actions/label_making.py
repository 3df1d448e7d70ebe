"""Making labels: in which form, to a file or on paper, and what is kept of every label that was made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from stockroom.actions.label_stocks import grid_of
from stockroom.actions.printers import find_printer, scale_of
from stockroom.domain.labels import LabelMade
from stockroom.domain.lots import Lot
from stockroom.domain.occasion import utc_text
from stockroom.errors import BadInput, DatabaseUnusable
from stockroom.labels.content import LabelContent
from stockroom.labels.printing import print_file
from stockroom.labels.write import Form, Written, write_label
from stockroom.store import labels
from stockroom.store.history import actions_of_lot
from stockroom.store.lots import find_lot, lot_by_id
from stockroom.store.open import Store
from stockroom.store.stockroom_settings import setting

if TYPE_CHECKING:
    from stockroom.settings import Settings

CODE, CODE_AND_WORDS = "code", "code and words"
MOST_COPIES = 200
_COMPARED = (
    *("name", "strength", "solvent", "use_by", "fresh_until", "topped_up", "storage"),
    *("vented", "signal_word", "hazards", "pictograms"),
)
"""What makes a label false when it changes. Opened and place do not: they are written in or left off."""
_SINCE = {
    "check": "check",
    "top-up": "topping up",
    "pour": "pouring",
    "open": "opening",
    "use": "use",
    "take": "taking",
    "put-right": "putting right",
    "undo": "undoing",
}
"""What may change what a label should say, in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OutOfDate:
    """A label that no longer says what is so."""

    code: str
    made_on: str
    since: str | None
    """What was done after it was made, `the check of 2026-12-20`; None where only its material's entry was edited."""
    differences: tuple[tuple[str, str, str], ...]
    """What it says differently: which field, what it said, what is so now."""

    @property
    def words(self) -> str:
        """Say which label it is and why, for a person."""
        before = f", before {self.since}," if self.since else ""
        said = "; ".join(_difference(*one) for one in self.differences)
        return f"the label of {self.code} made on {self.made_on}{before} is out of date ({said})"


def form_of(
    store: Store,
    settings: Settings,
    *,
    stock: str | None = None,
    size: str | None = None,
    first: int | None = None,
    copies: int = 1,
    dpi: int | None = None,
    printer: str | None = None,
) -> Form:
    """Work out how labels are drawn from what was asked for, else from the settings.

    Raises NotFound for a label stock there is not, BadInput for a stock and a size at once, a position without a
    sheet, or too many copies.
    """
    from stockroom.science.reading import read_size

    if settings.label_symbol not in (CODE, CODE_AND_WORDS):
        raise BadInput(f"In the settings, label_symbol is '{CODE}' or '{CODE_AND_WORDS}'.")
    if stock and size:
        raise BadInput("Give --stock or --size: a label stock has its own size.")
    if not 1 <= copies <= MOST_COPIES:
        raise BadInput(f"{copies} copies cannot be: 1 to {MOST_COPIES}.")
    measured = find_printer(store, printer or settings.label_printer or "")
    form = Form(copies=copies, dpi=dpi or settings.label_dpi, scale=scale_of(measured) if measured else Form().scale)
    named = stock or (None if size else settings.label_stock)
    if named is None:
        if first is not None:
            raise BadInput("A first position is for sheets of labels: name one with --stock.")
        width_um, height_um = read_size(size or settings.label_size)
        return replace(form, size_mm=(width_um / 1000, height_um / 1000))
    grid = grid_of(labels.find_label_stock(store, named))
    return replace(form, grid=grid, first=first or 1, size_mm=(grid.label_width_mm, grid.label_height_mm))


def write_labels(
    store: Store, contents: Sequence[LabelContent], path: Path, form: Form, *, by: str | None, now: datetime
) -> Written:
    """Write labels to a file and keep that they were made. Raises what write.write_label raises."""
    written = write_label(contents, path, form)
    keep_made(store, contents, form.copies, "file", by=by, now=now)
    return written


def print_labels(
    store: Store,
    contents: Sequence[LabelContent],
    form: Form,
    *,
    printer: str | None,
    by: str | None,
    now: datetime,
) -> tuple[Written, str]:
    """Print labels, keep that they were made, and return what the printer's queue answered.

    Raises Refused where it does not take them; nothing is kept then.
    """
    from tempfile import TemporaryDirectory

    with TemporaryDirectory(prefix="stockroom-") as folder:
        path = Path(folder) / "labels.pdf"
        written = write_label(contents, path, form)
        answer = print_file(path, printer, form.page_mm)
    keep_made(store, contents, form.copies, "printer", by=by, now=now)
    return replace(written, files=()), answer


def keep_made(
    store: Store, contents: Sequence[LabelContent], copies: int, way: str, *, by: str | None, now: datetime
) -> None:
    """Keep of each label when, by whom, how many, and what it said. A file that only reads keeps nothing."""
    zone = ZoneInfo(setting(store, "time_zone"))
    fields = {
        "at": utc_text(now),
        "day": now.astimezone(zone).date().isoformat(),
        "booked_at": utc_text(datetime.now(UTC)),
        "initials": by,
        "copies": copies,
        "way": way,
    }
    try:
        with store.write():
            for content in contents:
                labels.add_label_made(store, find_lot(store, content.code).id, fields, asdict(content))
    except DatabaseUnusable as error:
        if error.details.get("why") != "read-only":
            raise


def made_of(store: Store, code: str) -> list[LabelMade]:
    """Return the labels made of a lot, the newest first."""
    return labels.labels_made(store, find_lot(store, code).id)


def find_out_of_date(store: Store, content: LabelContent) -> OutOfDate | None:
    """Say whether the last label made of a lot says other than `content`, which is so now; None where none was."""
    lot = find_lot(store, content.code)
    made = labels.labels_made(store, lot.id)
    if not made:
        return None
    said, now = made[0].said, asdict(content)
    compared = [field for field in _COMPARED if field != "pictograms" or not said.get("left_off")]
    differences = tuple(
        (_field(content, field), _shown(said.get(field)), _shown(now[field]))
        for field in compared
        if _shown(said.get(field)) != _shown(now[field])
    )
    if not differences:
        return None
    return OutOfDate(
        code=lot.code, made_on=made[0].day, since=_since(store, lot, made[0].after_action), differences=differences
    )


def lots_out_of_date(store: Store) -> list[str]:
    """Return the codes of the lots not ended whose last label says other than is so now."""
    from stockroom.actions.labelling import label_of

    lots = [lot_by_id(store, lot_id) for lot_id in labels.lots_with_labels(store)]
    return [lot.code for lot in lots if find_out_of_date(store, label_of(store, lot.code))]


def _since(store: Store, lot: Lot, after: int) -> str | None:
    changed = [
        done for done in actions_of_lot(store, lot.id) if done.number > after and done.in_effect and done.kind in _SINCE
    ]
    return f"the {_SINCE[changed[-1].kind]} of {changed[-1].day}" if changed else None


def _difference(field: str, was: str, now: str) -> str:
    if was and now:
        return f"{field} {was} → {now}"
    return f"{field} {now} is not on it" if now else f"{field} {was} is no longer true"


def _field(content: LabelContent, field: str) -> str:
    return content.use_by_word if field == "use_by" else field.replace("_", " ")


def _shown(value: object) -> str:
    if isinstance(value, list | tuple):
        return ", ".join(map(str, value))
    return "" if value is None or value is False else "yes" if value is True else str(value)
