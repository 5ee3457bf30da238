"""`python -m builder` is `loombook`."""


def run() -> None:
    """Run the command that was typed; Ctrl-C ends it at any moment without a traceback."""
    try:
        from builder.cli import main

        main()
    except (KeyboardInterrupt, SystemExit) as ended:
        from builder.cli.exit_codes import is_stopped, stop_now

        if is_stopped(ended):
            stop_now()
        raise


if __name__ == "__main__":
    run()
