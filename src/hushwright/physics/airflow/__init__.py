"""Air that people breathe: what they give off, how rooms mix, what ducts and fans deliver, and whether it draws."""
