"""Money: take-off, prices, jobs, options."""
