"""What touched what, as a tree: from a lot forth to objects and back to its origins; from a job to all its lots."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, zip_longest
from typing import ClassVar

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static, Tree

from stockroom.actions.tracing import trace
from stockroom.domain.trace import Branch, Thing, Trace, TracedLot, TracedObject, TracedTreatment
from stockroom.science.quantities import show
from stockroom.store.open import Store
from stockroom.store.recipes import find_recipe
from stockroom.tui.page import Page
from stockroom.tui.texts import one_line
from stockroom.tui.words import DONE

MOST = 2000
"""Branches shown; whoever needs more asks for a smaller part of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the tree."""

    depth: int
    words: str
    thing: Thing | None = None


class TraceScreen(Page):
    """One trace, both ways."""

    CSS_PATH = "trace.tcss"
    HELP = """
What touched what, through any depth. From a lot: all it went into and every object it
reached, then all that is behind it. From a job: for each object every treatment, and the
lots behind each, as they were on that day.

Space folds a branch or unfolds it; Enter opens the page of the lot or job that is marked.
"""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "Its page", priority=True, show=False),
        Binding("space", "fold", "Fold, unfold", priority=True),
    ]

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code
        self._shown: list[Line] = []
        self._names: dict[str, str] = {}

    def body(self) -> ComposeResult:
        yield Static("", id="name", classes="heading")
        tree: Tree[Thing] = Tree("")
        tree.show_root = False
        tree.guide_depth = 3
        yield tree
        yield Static("", id="does", classes="quiet")

    def on_mount(self) -> None:
        self.query_one(Tree).focus()

    def load(self) -> None:
        self._load()

    def _read(self, store: Store) -> tuple[Trace, dict[str, str]]:
        """Trace it, and name the recipes of its treatments."""
        traced = trace(store, self.code)
        recipes = {one.recipe for one in traced.treatments if one.recipe}
        return traced, {key: find_recipe(store, key).name for key in recipes}

    @work(exclusive=True, group="load")
    async def _load(self) -> None:
        found = await self.fetch(self._read)
        if found is None:
            return
        traced, self._names = found
        self.query_one("#name", Static).update(Content("   ").join(map(Content, map(one_line, heading(traced)))))
        lines = list(islice(self._lines(traced), MOST + 1))
        if len(lines) > MOST:
            lines[MOST:] = [Line(depth=0, words="… and more: trace one of these lots by itself")]
        if lines != self._shown:  # what another window booked need not fold or unfold anything here
            self._shown = lines
            self._grow(lines)

    def _lines(self, traced: Trace) -> Iterator[Line]:
        """Give every branch, each before what it leads to."""
        if not traced.reached:
            yield from self._branches(traced.behind, 0, "of")
            return
        for title, way, root in (
            ("Went into, and reached", "into", traced.reached),
            ("Behind it", "of", traced.behind),
        ):
            yield Line(depth=0, words=title)
            yield from self._branches(root[0].branches, 1, way)

    def _branches(self, branches: Sequence[Branch], depth: int, way: str) -> Iterator[Line]:
        """Give branches with theirs; `way` is how an amount went: of a lot or into it."""
        if not branches:
            yield Line(depth=depth, words="nothing")
        for branch in sorted(branches, key=lambda branch: getattr(branch.thing, "day", None) or ""):
            yield Line(depth=depth, words=self._words(branch.thing, way), thing=branch.thing)
            if branch.branches:
                yield from self._branches(branch.branches, depth + 1, way)

    def _grow(self, lines: Sequence[Line]) -> None:
        """Put the lines up as a tree, all of it unfolded."""
        tree: Tree[Thing] = self.query_one(Tree)
        tree.clear()
        above = [tree.root]
        for line, after in zip_longest(lines, lines[1:]):
            del above[line.depth + 1 :]
            label, leads_on = Text(line.words, no_wrap=True), after is not None and after.depth > line.depth
            node = above[-1].add(label, data=line.thing, expand=True, allow_expand=leads_on)
            above.append(node)
        tree.root.expand()
        tree.move_cursor(tree.root.children[0] if tree.root.children else None)

    @on(Tree.NodeHighlighted)
    def _tell_marked(self) -> None:
        marked = self._marked()
        self.query_one("#does", Static).update(Content(one_line(details(marked)) if marked else ""))

    def _marked(self) -> Thing | None:
        node = self.query_one(Tree).cursor_node
        return node.data if node is not None else None

    def _words(self, thing: Thing, way: str) -> str:
        """Write one thing in a few words, what is wrong with it behind a sign; a job that is traced is not named."""
        match thing:
            case TracedLot(lot=lot):
                amount = f"{show(thing.amount)} {way} " if thing.amount else ""
                said = [thing.strength, f"made {lot.made_at[:10]}" if lot.made_at else None]
                said += [f"maker's lot {lot.maker_lot}" if lot.maker_lot else None]
                wrong = thing.override or (lot.unfit and f"now unfit: {lot.unfit}")
                told = ", ".join([f"{amount}{lot.material.name} {lot.code}", *(one for one in said if one)])
                return one_line(f"{'! ' if wrong else ''}{told}")
            case TracedTreatment():
                done = self._names.get(thing.recipe or "", DONE.get(thing.kind, thing.kind))
                of = "" if thing.job == self.code else f", for {thing.job} {thing.title}"
                return one_line(f"{thing.day} {done}, {thing.by}{of}")
            case TracedObject():
                name = f"{thing.position} {thing.name}" if thing.name else "no object named"
                of = "" if thing.job == self.code else f" of {thing.job} {thing.title}"
                stated = "" if thing.stated or not thing.name else " (not stated: it may have been)"
                return one_line(f"{name}{of}{stated}")

    def action_open(self) -> None:
        match self._marked():
            case TracedLot(lot=lot):
                self.app.open_code(lot.code)
            case TracedTreatment(job=job) | TracedObject(job=job):
                self.app.open_code(job)

    def action_fold(self) -> None:
        node = self.query_one(Tree).cursor_node
        if node is not None and node.children:
            node.toggle()


def heading(traced: Trace) -> tuple[str, str]:
    """Say what is traced, and how many lots and objects there are in it."""
    lots = len({one.lot.id for one in (*traced.lots_reached, *traced.lots_behind)})
    told = f"{lots} {'other ' if traced.reached else ''}lot{'s' if lots != 1 else ''}"
    if traced.reached:
        told += f", {len(traced.objects)} object{'s' if len(traced.objects) != 1 else ''}"
    return traced.of, told


def details(thing: Thing) -> str:
    """Write what else is known of the marked thing."""
    match thing:
        case TracedLot(lot=lot):
            check = thing.check
            said = [
                f"drawn {thing.day}" if thing.day else None,
                f"received {lot.received_on}" if lot.received_on else None,
                f"use by {lot.use_by}" if lot.use_by else None,
                f"checked {check.day} by {check.method}: {check.verdict} ({check.by})" if check else None,
                f"! not fit: {thing.override}" if thing.override else None,
                f"! now unfit: {lot.unfit}" if lot.unfit else None,
            ]
            return "; ".join(["Enter: its page", *(one for one in said if one)])
        case TracedTreatment():
            said = [thing.strength, thing.media, thing.reason, f"booked as {thing.action}"]
            return "; ".join(["Enter: the job's page", *(one for one in said if one)])
        case TracedObject():
            return "Enter: the job's page"
