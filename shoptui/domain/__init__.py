"""What is true of parts, moves, codes and days, without files, clock, terminal or database."""
