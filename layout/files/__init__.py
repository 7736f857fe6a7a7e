"""YAML to checked values, and outputs written whole or not at all."""
