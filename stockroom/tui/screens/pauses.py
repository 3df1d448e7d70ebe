"""How long a screen waits for the next key before it works with what was typed."""

TYPING_PAUSE = 0.15
"""Seconds; shorter than anybody waits for, longer than between two keys of a word."""
