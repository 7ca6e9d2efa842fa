"""The program around the engine: the command line, and the editor's window."""
