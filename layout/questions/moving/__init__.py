"""Where else a part could be."""
