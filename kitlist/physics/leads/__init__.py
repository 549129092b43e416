"""Leads and links: resistance, warming, the volts to read at each link."""
