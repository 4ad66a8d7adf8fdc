"""The frozen types every stage shares; this package knows no stage and uses only pydantic and the standard library."""
