"""The isometric on the screen: a window beside the plan, live with the study, that selects what the plan selects."""
