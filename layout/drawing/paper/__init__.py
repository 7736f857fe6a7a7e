"""What a sheet is made of: lines, areas, letters and dimensions in mm."""
