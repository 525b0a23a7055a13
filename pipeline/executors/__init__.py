"""Where batches of work go: processes of this machine, or the workers of a scheduler."""
