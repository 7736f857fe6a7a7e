"""Power supplies and their leads."""
