"""Papers that workshop and client hold in hand: composed of blocks, set by typst, nothing computed."""
