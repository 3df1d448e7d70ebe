"""What a label says, its QR symbol, and PDF, PNG, SVG and terminal output. Knows no store and no planning."""
