"""Worked examples of what goods cost, for the books and for the average beside them. Money is in cents."""

from __future__ import annotations

Move = tuple[int, int]
"""So many in (above nothing) at a cost of so much, or so many out (below nothing), for which the cost is not read."""

TRADER: list[Move] = [
    (50, 150_000), (-30, 0), (100, 300_000), (-80, 0), (120, 366_000), (-90, 0), (-50, 0), (150, 465_000), (-100, 0),
    (-30, 0), (120, 378_000), (-120, 0), (100, 320_000), (-120, 0),
]  # fmt: skip
"""Opening 50 at 30.00; 100 at 30.00, 120 at 30.50, 150 at 31.00, 120 at 31.50, 100 at 32.00; 620 issued in eight.

The worked question on a trader's stock set for Cambridge International A Level Accounting (9706), January to March;
read as lecture notes on revision.co.zw. Its slips (a balance printed 860 for 1,240, a unit cost 30.725 for 30.375) are
not followed."""

DELIVERIES: list[Move] = [(5, 1_750), (5, 2_000), (5, 2_500), (5, 2_750)]
"""Five each at 3.50, 4.00, 5.00 and 5.50, of which seven are used: ACCA Financial Accounting, study text by Kaplan
Publishing."""
