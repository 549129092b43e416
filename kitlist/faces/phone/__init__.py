"""The phone page: check-off, readings and the current card in a browser, by the same functions as the commands."""
