"""Where a finding shows: its dimension or its place."""
