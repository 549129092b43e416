"""What all rooms stand on: errors, the words of the trade, sources, quantities, how a number is rounded."""
