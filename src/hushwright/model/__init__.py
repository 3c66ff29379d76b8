"""The Build: geometry, surfaces, layers, openings, masses, states. Knows what is there, not how it behaves."""
