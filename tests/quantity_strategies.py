"""What hypothesis draws amounts, strengths and texts from."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import strategies as st

from stockroom.science.quantities import Dimension, Quantity
from stockroom.science.strengths import UNITS, Strength

quantities = st.builds(Quantity, st.sampled_from(Dimension), st.integers(1, 10**15))
"""Any amount that can be typed."""

strengths = st.builds(
    lambda number, unit: Strength(number=number, unit=unit),
    st.decimals("0.0001", "100", places=4).map(Decimal.normalize),
    st.sampled_from(UNITS),
)

typed = st.text(max_size=250) | st.text(
    alphabet="0123456789.,/ -+:%½¼²^*x×()eEinto1µgGmMlLtspVvwWhDdaynthOctN'", max_size=60
)
"""Anything a keyboard, a scanner or a paste can send, and text that nearly makes sense."""
