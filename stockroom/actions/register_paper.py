"""The running page of a material as a report."""

from __future__ import annotations

from collections.abc import Iterator

from stockroom.domain.papers import Block, Column, Heading, Paper, Points, Rows, Words
from stockroom.domain.registers import Register, RegisterLine
from stockroom.science.quantities import Quantity, show


def register_paper(register: Register) -> Paper:
    """Lay a register out, with room to sign."""
    material = register.material
    grade = f", {material.grade}" if material.grade else ""
    return Paper(title=f"Register: {material.name}{grade}", blocks=tuple(_blocks(register)))


def _blocks(register: Register) -> Iterator[Block]:
    since = f"from {register.since}" if register.since else "from the first day"
    about = [f"{since[0].upper()}{since[1:]} to {register.until}", f"Brought forward: {show(register.brought_forward)}"]
    if not register.material.register:
        about.append("The studio keeps no register of it; which materials need one is for local rules.")
    yield Points(items=tuple(about))
    yield Rows(
        columns=(
            Column(title="Day", share=1.2),
            Column(title="What", share=1.2),
            Column(title="Lot", share=0.8),
            Column(title="In", share=1, right=True),
            Column(title="Out", share=1, right=True),
            Column(title="Left", share=1.1, right=True),
            Column(title="By", share=0.5),
            Column(title="For what", share=2.6),
            Column(title="Action", share=0.9),
        ),
        rows=tuple(_row(one) for one in register.lines),
    )
    yield Words(text=f"Left on {register.until}: {show(register.left)}", strong=True)
    if register.unexplained:
        yield Heading(text="Missing, and not explained")
        yield Points(
            items=tuple(
                f"{one.day}: {show(one.missing)} of {one.lot} (count {one.action})" for one in register.unexplained
            )
        )
    if register.explained:
        yield Heading(text="Explained later")
        yield Points(
            items=tuple(f"{one.lot} at {one.action}: {one.reason} ({one.by}, {one.on})" for one in register.explained)
        )
    yield Words(text="Seen and found right: ______________________   Day: ______________")


def _row(line: RegisterLine) -> tuple[str, ...]:
    size = show(Quantity(line.moved.dimension, abs(line.moved.quanta)))
    ways = (size, "") if line.moved.quanta > 0 else ("", size)
    return (line.day, line.what, line.lot, *ways, show(line.left), line.by, line.words, line.action)
