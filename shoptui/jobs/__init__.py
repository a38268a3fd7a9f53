"""One module for each thing a person does: read the store, ask the domain, commit one transaction, say it."""
