"""The pattern, the flask and the mould: sizes, clearances, walls, orientation, and the forces of the pour."""
