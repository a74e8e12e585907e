"""What stands in the coating room, in the words of a page."""
