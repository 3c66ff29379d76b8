"""Masses on mounts: rubber, rigid bodies, trapped air, mobilities and insertion loss. SI, frequencies passed in."""
