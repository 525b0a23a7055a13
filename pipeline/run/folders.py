"""Where each site's workbooks go: a site keeps its folder; a new one gets a name that no other has."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pipeline.output.names import folder_of, site_folders
from pipeline.run.open_run import RunState
from pipeline.site.task import SiteTask


def with_folders(tasks: Sequence[SiteTask], run: RunState) -> list[SiteTask]:
    """The tasks with their folders."""
    taken = {site: folder_of(latest.workbook) for site, latest in run.latest.items()}
    folders = site_folders({task.site: task.site_code for task in tasks}, taken)
    return [replace(task, folder=folders[task.site]) for task in tasks]
