"""The command under test is this checkout's; properties are looked at over the same cases each time."""

import os
from pathlib import Path

from hypothesis import settings

os.environ["PYTHONPATH"] = os.pathsep.join(
    filter(None, (str(Path(__file__).resolve().parent.parent), os.environ.get("PYTHONPATH")))
)

settings.register_profile("same each time", derandomize=True, print_blob=False)
settings.load_profile("same each time")
