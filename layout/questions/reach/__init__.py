"""Whether leads and hoses get where they must, and on what way."""
