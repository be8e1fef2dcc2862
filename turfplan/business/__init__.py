"""What a business knows beside its lawns' plans: itself, its clients, and what is due on a day."""
