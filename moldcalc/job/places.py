"""Where the package's data and workbook are: inside it when installed, beside it in a checkout."""

from importlib.resources import files
from pathlib import Path


def _folder(installed: str, beside: str) -> Path:
    package = Path(str(files("moldcalc")))
    return package / installed if (package / installed).is_dir() else package.parent / beside


def data_folder() -> Path:
    """Material cards, demo jobs, tables."""
    return _folder("_data", "data")


def workbook_folder() -> Path:
    """The chapters as they are shipped."""
    return _folder("_workbook", "workbook")
