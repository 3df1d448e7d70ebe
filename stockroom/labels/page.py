"""Filling the room that a label's frame leaves, one paragraph below the other. In mm from the upper left corner."""

from __future__ import annotations

from functools import partial

from stockroom.labels.fonts import Measure
from stockroom.labels.placing import (
    ASCENT,
    BOX_HEIGHT_MM,
    LEAST_BOX_WIDTH_MM,
    LINE_HEIGHT,
    MARGIN_MM,
    Box,
    Frame,
    Line,
)
from stockroom.labels.wording import Paragraph
from stockroom.labels.wrapping import shorten, wrap

_PARAGRAPH_GAP_MM = 0.3
_MOST_BOX_MM = 32.0
_BOX_GAP_MM = 1.5
_BOX_INSET_MM = 0.6


class Page:
    """Lines and boxes placed so far, and where the next paragraph starts."""

    def __init__(self, frame: Frame, bottom_mm: float, measure: Measure) -> None:
        self.frame = frame
        self.bottom_mm = bottom_mm - MARGIN_MM
        self.y_mm = frame.start_mm
        self.measure = measure
        self.lines: list[Line] = []
        self.boxes: list[Box] = []
        self.shortened: list[str] = []

    def add(self, paragraph: Paragraph, scale: float) -> bool:
        """Add a paragraph at its size times `scale`, or less; tell whether it fitted."""
        size = max(paragraph.least_mm, paragraph.size_mm * scale)
        if paragraph.boxes:
            return self._add_boxes(paragraph, min(size, paragraph.size_mm))
        most = paragraph.most_lines
        try:
            texts, places = self._wrap(paragraph, size)
            while most and len(texts) > most and size > paragraph.least_mm:
                size = max(paragraph.least_mm, size * 0.92)
                texts, places = self._wrap(paragraph, size)
        except ValueError:
            return False
        if most and len(texts) > most and not paragraph.whole:
            width = partial(self.measure, size_mm=size, bold=paragraph.bold)
            room = places[most - 1][1] - MARGIN_MM
            texts[most - 1 :] = [shorten(" ".join(texts[most - 1 :]), room, width)]
            self.shortened.append(f"{paragraph.pieces[0].key} shortened")
        for text, (top_mm, _) in zip(texts, places, strict=False):
            self.lines.append(self._line(text, MARGIN_MM, top_mm, size, paragraph.bold))
        last_mm = self.lines[-1].bottom_mm
        self.y_mm = last_mm + _PARAGRAPH_GAP_MM
        return last_mm <= self.bottom_mm

    def _wrap(self, paragraph: Paragraph, size: float) -> tuple[list[str], list[tuple[float, float]]]:
        """Break a paragraph into lines; give them with the top and right edge of each line's place."""
        places: list[tuple[float, float]] = []
        height = size * LINE_HEIGHT

        def room(number: int) -> float:
            while len(places) <= number:
                top_mm = places[-1][0] + height if places else self.y_mm
                places.append(self.frame.find_room(top_mm, height))
            return places[number][1] - MARGIN_MM

        return wrap(paragraph.text, room, partial(self.measure, size_mm=size, bold=paragraph.bold)), places

    def _add_boxes(self, paragraph: Paragraph, size: float) -> bool:
        """Add boxes side by side where two have room, else below each other, each with its caption inside."""
        captions = [piece.text for piece in paragraph.pieces]
        if self.frame.boxes:
            self.boxes += self.frame.boxes
            for box, caption in zip(self.boxes, captions, strict=False):
                self.lines.append(self._caption(caption, box, size))
            return len(captions) == len(self.boxes)
        while captions:
            top_mm, right_mm = self.frame.find_room(self.y_mm + _PARAGRAPH_GAP_MM, BOX_HEIGHT_MM)
            room = right_mm - MARGIN_MM - _BOX_GAP_MM
            here = min(len(captions), max(1, int((room + _BOX_GAP_MM) // (LEAST_BOX_WIDTH_MM + _BOX_GAP_MM))))
            width = min(_MOST_BOX_MM, (room - (here - 1) * _BOX_GAP_MM) / here)
            if width < LEAST_BOX_WIDTH_MM or top_mm + BOX_HEIGHT_MM > self.bottom_mm:
                return False
            for number, caption in enumerate(captions[:here]):
                x_mm = MARGIN_MM + number * (width + _BOX_GAP_MM)
                box = Box(x_mm=x_mm, y_mm=top_mm, width_mm=width, height_mm=BOX_HEIGHT_MM)
                self.boxes.append(box)
                self.lines.append(self._caption(caption, box, size))
            captions = captions[here:]
            self.y_mm = top_mm + BOX_HEIGHT_MM + _PARAGRAPH_GAP_MM
        return True

    def _caption(self, text: str, box: Box, size: float) -> Line:
        return self._line(text, box.x_mm + _BOX_INSET_MM, box.y_mm + _BOX_INSET_MM / 2, size, False)

    def _line(self, text: str, x_mm: float, top_mm: float, size: float, bold: bool) -> Line:
        return Line(
            text=text,
            x_mm=x_mm,
            baseline_mm=top_mm + ASCENT * size,
            size_mm=size,
            width_mm=self.measure(text, size, bold),
            bold=bold,
        )
