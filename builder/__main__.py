"""`python -m builder`, and the `seambook` command."""

import gc

# Everything a build keeps lives to its end: the cycle collector would walk it again and again for nothing.
gc.disable()

from builder.cli import main  # noqa: E402

if __name__ == "__main__":
    main()
