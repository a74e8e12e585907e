"""A pitch survey from cells to what it says. No database, no request."""
