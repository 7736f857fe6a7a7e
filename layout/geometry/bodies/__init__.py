"""Bodies in place, one and many."""
