"""How thick a shape is, and where its casting freezes last."""
