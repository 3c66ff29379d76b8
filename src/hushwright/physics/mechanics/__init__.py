"""Masses on mounts."""
