"""What the sender of an unreadable file is told: why, and what to do instead."""

from __future__ import annotations

from pipeline.reading.book import UnreadableFileError

_SAVE = "Open it in a spreadsheet program, save it as an Excel workbook (.xlsx) and send that."
_AGAIN = (
    "Open it in the program that it came from, save it again as .xlsx and send that. "
    "If it does not open there either, ask for a new copy."
)
COPY = "Copy the rows that count into a new workbook and send that."
_SEND = "Send the survey as a spreadsheet (.xlsx, .ods, .xls, .xlsb) or as a text table (.csv)."

ANSWERS: dict[str, tuple[str, str]] = {
    "empty": ("The file is empty: it holds no bytes at all.", "Send it again; it may have been cut off on the way."),
    "gone": ("The file is not there any more.", "Put it back, or take it off the list, and run again."),
    "denied": ("The file may not be opened by this user.", "Give the right to read it, and run again."),
    "unopened": ("The file could not be opened.", "Check the disk or the network drive, and run again."),
    "not a file": (
        "This is a device, a pipe or the like, and not a file.",
        "Copy its content into an ordinary file and send that.",
    ),
    "damaged": ("The workbook is damaged or was cut off.", _AGAIN),
    "password": (
        "The workbook is protected by a password, so nothing in it can be read.",
        "Open it, take the password off (File, Info, Protect Workbook), save it and send that.",
    ),
    "packing": ("The workbook is packed in an unusual way that is not supported.", _SAVE),
    "entities": (
        "The workbook declares entities inside its parts, as no spreadsheet program does; this can be an attack.",
        _SAVE,
    ),
    "bomb": ("The workbook is packed so tightly that it would fill this computer's memory.", _SAVE),
    "no sheet": ("No sheet was found in the workbook.", _SAVE),
    "document": ("This is a text document and not a spreadsheet.", _SEND),
    "slides": ("This is a presentation and not a spreadsheet.", _SEND),
    "old open": ("This is a workbook of an early office suite (.sxc), a format that is not supported.", _SAVE),
    "numbers": (
        "This is a workbook in a tablet's own format, which is not supported.",
        "Export it as an Excel workbook (.xlsx) and send that.",
    ),
    "zip": ("This is a packed folder (zip) and not a spreadsheet.", "Unpack it and send the spreadsheets that are in it."),
    "archive": ("This is a packed archive and not a spreadsheet.", "Unpack it and send the spreadsheets that are in it."),
    "picture": ("This is a picture and not a spreadsheet.", "Type the survey into our survey form and send that."),
    "pdf": (
        "This is a PDF and not a spreadsheet.",
        "Send the spreadsheet that it was made from, or type the survey into our form.",
    ),
    "web page": ("This is a web page, even where its name says that it is a spreadsheet.", _SAVE),
    "old xml": ("This is a workbook in an XML format of 2003 that is not supported.", _SAVE),
    "xml": ("This is an XML file and not a spreadsheet.", _SEND),
    "rtf": ("This is a text document (RTF) and not a spreadsheet.", _SEND),
    "mail": ("This is an e-mail or a web archive and not a spreadsheet.", "Save the attached spreadsheet and send that."),
    "link format": ("This is a file in an old exchange format (SYLK or DIF) that is not supported.", _SAVE),
    "json": ("This is a data or shortcut file (JSON) and not a spreadsheet.", _SEND),
    "office": ("This is an office file, but no workbook was found in it.", _SAVE),
    "binary": ("This is no spreadsheet and no text table.", _SEND),
    "no table": ("This is plain text with no table in it.", _SEND),
    "shifted": ("The text is damaged: a byte of it is missing or too many, and what follows cannot be read.", _AGAIN),
    "slow": ("Reading the file took too long, so it was stopped.", COPY),
    "memory": (
        "Reading the file took more memory than a survey may need, so it was stopped.",
        COPY,
    ),
    "crashed": ("The file makes its reader stop working; it is probably damaged.", _AGAIN),
    "link": (
        "This is a link that leads out of the folder; links are not followed.",
        "Put the file itself into the folder, or name it on the command line.",
    ),
    "dead link": ("This is a link that leads nowhere.", "Put the file itself into the folder."),
    "folder": ("This folder may not be opened by this user.", "Give the right to read it, and run again."),
}


ACCIDENTS = frozenset({"gone", "denied", "unopened", "slow", "memory", "crashed", "folder"})
"""Answers that say nothing of a file's bytes: the next run tries again."""


def answer(key: str) -> UnreadableFileError:
    """The answer by its key in ANSWERS."""
    return UnreadableFileError(*ANSWERS[key], lasting=key not in ACCIDENTS)


def damaged(where: str) -> UnreadableFileError:
    """The workbook is damaged at a place that can be named."""
    reason, remedy = ANSWERS["damaged"]
    return UnreadableFileError(f"{reason.removesuffix('.')}: {where}.", remedy)
