"""`python -m hushwright` is `hushwright`."""

from hushwright.cli.main import run

if __name__ == "__main__":
    run()
