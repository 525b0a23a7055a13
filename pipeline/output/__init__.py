"""The output folder: what is written there, whole or not at all."""
