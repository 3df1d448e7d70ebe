"""Pure decisions over what is on the shelf: fitness, picking, requirements, what is due, what it costs."""
