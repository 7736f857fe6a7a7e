"""Processor, coolers, radiators and fans."""
