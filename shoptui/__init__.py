"""Every part of a filmed vehicle build, from ordered through received and installed to removed."""
