"""A deed in, its exit code out: for deeds that end the process or that a test cannot undo in itself."""

import os
import traceback
from collections.abc import Callable


def in_child(deed: Callable[[], object]) -> int:
    """Do it in a forked process; returns its exit code, 1 if it raised, or minus the signal that ended it."""
    child = os.fork()
    if child == 0:
        try:
            deed()
        except BaseException:
            traceback.print_exc()
            os._exit(1)
        os._exit(0)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
