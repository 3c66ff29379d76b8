"""Heat and moisture: faces, rooms as a network, days, water in build-ups."""
