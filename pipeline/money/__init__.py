"""What it costs: Decimal, half-up by line."""
