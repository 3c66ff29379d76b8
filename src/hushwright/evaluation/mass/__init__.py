"""Mass, structure and space: wheels, anchors, doors, cuts, room to stand and to move."""
