"""Feeding: nitrogen in slots and its account, blackouts, lime, nutrients, compost and the bag."""
