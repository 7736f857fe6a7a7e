"""How large a part could be."""
