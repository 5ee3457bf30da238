"""Make the pages and files of the site from a checked book."""
