"""What is owned, measured and planned, in one SQLite file. The only place that knows sqlmodel and sqlite-utils."""

from kitlist.store.opening import Store, default_path, start

__all__ = ["Store", "default_path", "start"]
