"""Questions that wait for an answer."""
