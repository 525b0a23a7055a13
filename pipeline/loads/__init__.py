"""Rough installed load: pure functions of arrays, SI, one clause a function."""
