"""`python -m builder` is `loombook`."""


def run() -> None:
    """Run the command that was typed."""
    from builder.cli import main

    main()


if __name__ == "__main__":
    run()
