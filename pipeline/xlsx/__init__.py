"""How a page is written: styles, widths, paper, tables. The only package that knows the spreadsheet library."""
