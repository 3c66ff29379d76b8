"""Papers that workshop and client hold in hand: composed of blocks, set by typst.

A paper may ask `evaluation` and the laws of physics for what a bench or a meter has to show: how far a mount settles
under the load of the day, at which level a room is judged. What the verdicts rest on is never computed here.
"""
