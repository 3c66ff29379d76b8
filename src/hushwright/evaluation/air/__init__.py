"""Air: what flows, what people breathe, draught."""
