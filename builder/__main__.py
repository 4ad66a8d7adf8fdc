"""`python -m builder`, and the `seambook` command."""

from builder.cli import main

if __name__ == "__main__":
    main()
