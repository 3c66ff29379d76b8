"""Power, conductors and signals: banks, converters, wiring, lines and headphones. SI inside."""
