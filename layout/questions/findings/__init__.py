"""What an answer is made of: the finding, its tolerance, its words."""
