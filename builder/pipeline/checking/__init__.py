"""Read every record of a book, run the rules, and decide plans and jobs."""
