"""Sound: partitions, leaks, rooms, ratings."""
