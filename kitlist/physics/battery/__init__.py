"""One battery: charge, standing, resistance, cranking, capacity, charging."""
