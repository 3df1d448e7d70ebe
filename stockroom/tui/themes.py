"""Two looks of our own: ink on paper, and lamp light. Every style sheet uses their names, never a colour."""

from __future__ import annotations

from textual.theme import Theme

THEMES = (
    Theme(
        name="lamp",
        dark=True,
        primary="#8fb3a5",
        secondary="#c9b48a",
        accent="#d8c27a",
        foreground="#e6e2d8",
        background="#1d2021",
        surface="#24282a",
        panel="#2d3335",
        success="#9dbf86",
        warning="#e0b25c",
        error="#e58a77",
    ),
    Theme(
        name="paper",
        dark=False,
        primary="#3f6b5c",
        secondary="#7d6636",
        accent="#7a5c10",
        foreground="#26231e",
        background="#f5f1e6",
        surface="#ece6d6",
        panel="#e0d8c4",
        success="#3f6b2c",
        warning="#8a5a00",
        error="#a0321e",
    ),
)
