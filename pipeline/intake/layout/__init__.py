"""Layouts: where the posts stand in a sheet. Cells in, records out; what a cell says is read later."""
