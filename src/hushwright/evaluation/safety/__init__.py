"""Safety: ways out, alarms, noise of a day."""
