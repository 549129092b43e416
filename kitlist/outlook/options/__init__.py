"""Choosing the bank: the batteries that travel, what the bank is for, the best few banks, what one change would do."""
