"""Ways past boxes: of what bends anywhere, and of what is stiff."""
