"""How thick a shape is, and where its casting freezes last.

Lengths, areas and volumes are in the unit of the file that the shape is from.
"""
