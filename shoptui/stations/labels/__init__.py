"""Labels: what lacks one, printing, how they will look, the printers."""
