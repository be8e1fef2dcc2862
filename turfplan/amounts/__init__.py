"""How much: material, seed, nitrogen and water, as what is bought, carried and run."""
