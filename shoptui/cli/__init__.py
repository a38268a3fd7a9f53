"""The command line: parses, opens the store, then opens the screens or prints one report."""
