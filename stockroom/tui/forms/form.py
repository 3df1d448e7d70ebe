"""What a form is: its fields, the action that it describes, and how a plan and a result are told."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Generic, Literal, Protocol, TypeVar

from textual.content import Content

from stockroom.actions.carrying_out import Outcome
from stockroom.domain.occasion import Occasion
from stockroom.errors import StockroomError
from stockroom.store.open import Store
from stockroom.tui.questions.offer import Offer

Kind = TypeVar("Kind", bound=Outcome)
Answers = Mapping[str, str]
"""What stands in the fields, by their keys; an empty field has no answer. Of a choice, the key chosen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One field."""

    key: str
    words: str
    """What it is called."""
    hint: str = ""
    """What stands in it while it is empty."""
    needed: bool = False
    rows: int = 0
    """How many lines of text it shows at once, where it holds several; 0 where it holds one."""
    rare: bool = False
    """Whether it is asked only where it is wanted, so that the form stays short."""
    choose: Callable[[Store, Answers], Sequence[Offer]] | None = None
    """What can be chosen, where it is a choice and not a text."""
    none: str = "There is nothing to choose from."
    """What is said where there is nothing to choose."""
    adds: str = ""
    """The form that adds what is not there to be chosen."""
    read: Callable[[Store, Answers], object] | None = None
    """Reads what stands in it; raises StockroomError, which is told beside the field."""
    shown: Callable[[Answers], bool] = lambda answers: True
    """Whether it is asked, given what was answered."""
    takes: Literal["lot", "lots"] | None = None
    """Whether a lot that is scanned goes into it, or the codes of several."""
    in_tray: Literal["volume", "tray and depth"] | None = None
    """Where it is an amount that stands in a tray, so that one is asked for: what is put into the field then."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """A field that only the plan asks for, and the question in words."""

    key: str
    words: str


class Does(Protocol[Kind]):
    """The action of a form, with its answers."""

    def __call__(
        self, store: Store, occasion: Occasion, answers: Answers, *, dry_run: bool, confirmed: Kind | None
    ) -> Kind: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Form(Generic[Kind]):
    """A form as data."""

    name: str
    title: str
    help: str
    """What the form is for; told by the key that explains a screen."""
    fields: tuple[Asked, ...]
    act: Does[Kind]
    plan: Callable[[Kind, str], Content]
    """Writes a plan; takes the currency."""
    question: Callable[[Answers], str]
    """Asks whether to book; takes the answers as they are shown."""
    done: Callable[[Kind, str], tuple[str, Content]]
    """Says what was booked: a title and a text."""
    lot: Callable[[Kind], str | None] = lambda done: None
    """The lot whose label or page may be wanted next."""
    labels: Callable[[Kind], Sequence[str]] = lambda done: ()
    """The lots that are labelled next, where they may be several."""
    waits: Callable[[Kind], str | None] = lambda plan: None
    """What is measured before it can be booked."""
    lacks: Callable[[Kind, Answers], Lack | None] = lambda plan, answers: None
    """What else has to be answered before it is booked, as the plan tells."""
    most: Callable[[Store, Occasion, Answers], tuple[str, str]] | None = None
    """Finds as much as can be made from what is here, and what ends it; None where nothing is sought."""
    about: Callable[[Store, Answers, datetime], Content] | None = None
    """Tells of what was chosen, while something is still to be filled in."""
    expand: Callable[[Store, Answers, datetime], Answers] = lambda store, known, local: known
    """Says what follows from what is known when the form is opened."""
    steps: bool = False
    """Whether its plan has steps to be gone through one by one."""
    opens: Callable[[Kind], str | None] = lambda done: None
    """A code whose page is opened after it was booked."""
    caution: str = ""
    """What stands above the form."""
    verb: str = "Book"
    """What is done with it once it is confirmed: what draws nothing is not booked, but kept, retired, given."""
    wrong: Callable[[Store, Answers], Mapping[str, str]] = lambda store, answers: {}
    """Says what is wrong with fields that are read together, by field."""
    page: Callable[[Kind], tuple[str, str] | None] = lambda done: None
    """The kind and key of what has a page in the bench book, opened after it was kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked(Generic[Kind]):
    """What became of the answers: the plan, or what is in its way."""

    plan: Kind | None = None
    wrong: Mapping[str, str] = field(default_factory=dict)
    """What is wrong, by field."""
    trouble: str | None = None
    """What is wrong with all of it together."""
    missing: tuple[str, ...] = ()
    """Fields that are still to be filled in, by what they are called."""
    about: Content | None = None


class Asks(Protocol):
    """Whatever asks by fields: a form, or a paper."""

    @property
    def fields(self) -> tuple[Asked, ...]: ...

    @property
    def expand(self) -> Callable[[Store, Answers, datetime], Answers]: ...


def asked_now(form: Asks, answers: Answers) -> list[Asked]:
    """Return the fields that are asked, given what stands in them; answers of fields not asked do not count."""
    counted, shown = dict(answers), []
    for one in form.fields:
        if one.shown(counted):
            shown.append(one)
        else:
            counted.pop(one.key, None)
    return shown


def read_answers(form: Asks, store: Store, answers: Answers) -> tuple[dict[str, str], tuple[str, ...]]:
    """Read every field that is asked; return what is wrong, by field, and the words of those still to be filled in."""
    asked = asked_now(form, answers)
    wrong: dict[str, str] = {}
    for one in asked:
        if one.read is not None and one.key in answers:
            try:
                one.read(store, answers)
            except StockroomError as error:
                wrong[one.key] = error.message
    return wrong, tuple(one.words for one in asked if one.needed and one.key not in answers)


def wrong_answer(form: Asks, answers: Answers, error: StockroomError) -> dict[str, str]:
    """Put an error beside the field whose answer it says is wrong; empty where it names none that is asked."""
    named = error.details.get("answer")
    return {one.key: error.message for one in asked_now(form, answers) if one.key == named}


def _wrong_together(form: Form[Kind], store: Store, answers: Answers) -> dict[str, str]:
    try:
        found = form.wrong(store, answers)
    except StockroomError:
        return {}  # what the form is about is not there: its action says so
    return {one.key: found[one.key] for one in asked_now(form, answers) if one.key in found}


def work_out(form: Form[Kind], store: Store, occasion: Occasion, answers: Answers) -> Worked[Kind]:
    """Read every field, then try the action and take it back: the plan shown is the very plan that would be booked."""
    wrong, missing = read_answers(form, store, answers)
    wrong = _wrong_together(form, store, answers) | wrong
    if wrong or missing:
        return Worked(wrong=wrong, missing=missing, about=_about(form, store, answers, occasion.local))
    try:
        return Worked(plan=form.act(store, occasion, answers, dry_run=True, confirmed=None))
    except StockroomError as error:
        beside = wrong_answer(form, answers, error)
        return Worked(wrong=beside, trouble=None if beside else error.message)


def _about(form: Form[Kind], store: Store, answers: Answers, local: datetime) -> Content | None:
    if form.about is None:
        return None
    try:
        return form.about(store, answers, local)
    except StockroomError:
        return None
