"""Sound: from faces, openings, gaps, fans and rain to levels in rooms, and what decides them."""
