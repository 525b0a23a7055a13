"""Made-up worlds: catalogues and surveys that sit on the edges of the rules, as real workbooks.

All codes, prices and places are invented; a seed always gives the same world.
"""
