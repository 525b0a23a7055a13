"""From the cells of one file to SI rows and queries: headings, tables, cells, lists, plausibility."""
