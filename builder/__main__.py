"""`python -m builder` is `loombook`."""

import gc


def run() -> None:
    """Run the command that was typed; Ctrl-C ends it at any moment without a traceback.

    The cyclic collector is off: records and pages hold no cycles. What a command leaves in cycles
    does not grow with its book, and looking for it takes up to a seventh of its time.
    """
    gc.disable()
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
