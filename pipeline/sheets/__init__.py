"""What the workbooks say and how it is written."""
