"""From files to SI rows and queries."""
