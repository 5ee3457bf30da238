"""`python -m builder` is `loombook`."""

from builder.cli import main

if __name__ == "__main__":
    main()
