"""Every law of physics by name, as it is asked for by hand."""
