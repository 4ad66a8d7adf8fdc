"""Seambook: a body shop's own repair records, compiled into an offline book."""
