"""Power: loads, sources, the bank over days, peaks."""
