"""What stands before a relaunch, in the words of a page."""
