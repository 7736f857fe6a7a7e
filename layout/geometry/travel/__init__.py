"""Bodies that travel or grow, in closed form."""
