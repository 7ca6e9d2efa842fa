"""What was drawn: records, edits from plan to plan, and the file on disk."""
