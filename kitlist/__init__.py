"""kitlist: is the trackside welding kit whole, dry, charged and matched before the trip?"""

__version__ = "0.1.0"
