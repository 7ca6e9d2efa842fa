"""The command line: one module a verb, and no Qt until the editor is asked for."""

from app.commands.program import main

__all__ = ["main"]
