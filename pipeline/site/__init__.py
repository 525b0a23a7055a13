"""One site after the other: from rows to what its quotation says, its lines of the data files and its workbook."""
