"""One module a kind of page: a pure view model, then its template. No files, no clock."""
