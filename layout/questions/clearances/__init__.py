"""Which bodies need room between them, why, and what is found there."""
