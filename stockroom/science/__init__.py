"""Pure calculation: quantities, strengths, dates, money. Knows no stockroom."""
