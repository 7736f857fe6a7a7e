"""Answers for readers: a JSON object for programs, a table for people."""
