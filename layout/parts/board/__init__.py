"""The board, its memory and its M.2 drives."""
