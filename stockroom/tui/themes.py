"""Two looks of our own: ink on paper, and lamp light. Every style sheet uses their names, never a colour."""

from __future__ import annotations

from typing import Any

from textual.app import App
from textual.constants import DEFAULT_THEME
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


def begin_in_own_look(app: App[Any]) -> None:
    """Give an application that was not started yet both looks, and the first one unless another was asked for.

    The style sheets take the colours at once: they would be read twice where the reactive was set.
    """
    for theme in THEMES:
        app.register_theme(theme)
    if DEFAULT_THEME == "textual-dark":  # as dark as the first look; nobody asked for another one
        app.set_reactive(App.theme, THEMES[0].name)
        app.stylesheet.set_variables(app.get_css_variables())
