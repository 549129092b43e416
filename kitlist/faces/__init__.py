"""What people see: paper, text and JSON, pages, commands. Each asks the rooms below; none decides."""
