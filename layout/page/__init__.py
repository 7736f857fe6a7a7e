"""The page for the quote: a check in plain words, beside its drawing."""
