"""The frozen records that rooms hand each other: what is wanted, what is planned, what happened."""
