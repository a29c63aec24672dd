"""The jobs as functions of Python, and their answers as objects."""
