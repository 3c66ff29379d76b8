"""`python -m hushwright` is `hushwright`."""

import sys

from hushwright.cli.main import run

if __name__ == "__main__":
    sys.exit(run())
