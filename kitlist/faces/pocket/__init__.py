"""The pocket page: one file on a phone, without network or server; the card, the bags, and the same arithmetic."""
