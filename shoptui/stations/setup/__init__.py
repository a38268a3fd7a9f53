"""Set-up: this terminal, the scanner, the store."""
