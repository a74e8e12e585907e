"""What is stamped on hubs, and what it says."""
