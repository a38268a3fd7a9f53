"""One shop's folder: TinyDB tables in memory on a journal on disk."""
