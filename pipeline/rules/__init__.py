"""What fits: pure functions of arrays, SI."""
