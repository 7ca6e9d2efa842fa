"""The fall strip: the long section of the selected line under the plan, where its height is seen and set."""
