"""The trade: one kind a file, data-sheet numbers to bodies and seats."""
