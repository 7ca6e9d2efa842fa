"""The panes round the canvas: each shows one side of the document and knows no other pane."""
