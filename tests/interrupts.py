"""Ctrl+C for a command that a test starts."""

import signal


def heed_ctrl_c() -> None:
    """Let the started command heed Ctrl+C: what runs in the background may have been told not to, and hands that on."""
    signal.signal(signal.SIGINT, signal.default_int_handler)
