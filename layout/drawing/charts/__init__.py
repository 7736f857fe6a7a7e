"""Sheets of other answers: positions, headroom, chains."""
