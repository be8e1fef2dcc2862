"""A plan against the one before: identities kept, numbers handed out once, changes told."""
