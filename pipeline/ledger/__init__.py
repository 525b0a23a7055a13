"""What was quoted when, from what, and why it changed: DIR/ledger.sqlite."""
