"""The case: its inside, its walls, its seats, its stated limits."""
