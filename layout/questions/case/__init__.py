"""What a case is asked alone: its limits, its faces, its panels."""
