"""What is kept: plan folders, written whole or not at all; and the index, tokens and cached bytes of what is served."""
