"""The sheet: its frame, its tables, its title block, its layers."""
