"""`python -m shoptui` is the command `shoptui`."""

from shoptui.cli.main import main

if __name__ == "__main__":
    raise SystemExit(main())
