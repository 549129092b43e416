"""One kind of rod: its current, what it burns, how it is kept, what shade and skin cover its arc asks for."""
