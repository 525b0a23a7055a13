"""postquote: from a folder of post surveys to a priced workbook per site."""

__version__ = "0.1.0"
PROGRAM = f"postquote {__version__}"
