"""Prints the packet to PDF with a Chromium-based browser, where the reader has one."""

import os
import shutil
import subprocess
import tempfile
from pathlib import Path

from moldcalc.errors import FileError, MissingError
from moldcalc.job.file import write_whole

SECONDS = 120
_COMMANDS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge", "microsoft-edge-stable",
             "msedge", "brave-browser", "brave", "vivaldi")
_MAC = ("Google Chrome", "Chromium", "Microsoft Edge", "Brave Browser", "Vivaldi")
_WINDOWS = (r"Google\Chrome\Application\chrome.exe", r"Microsoft\Edge\Application\msedge.exe", r"Chromium\Application\chrome.exe",
            r"BraveSoftware\Brave-Browser\Application\brave.exe", r"Vivaldi\Application\vivaldi.exe")
_WINDOWS_ROOTS = ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA")


def find_browser() -> str | None:
    """Path of a browser that can print without a window, or None."""
    for command in _COMMANDS:
        if found := shutil.which(command):
            return found
    places = [Path("/Applications") / f"{name}.app" / "Contents" / "MacOS" / name for name in _MAC]
    places += [Path(os.environ[root]) / tail for root in _WINDOWS_ROOTS if os.environ.get(root) for tail in _WINDOWS]
    return next((str(place) for place in places if place.is_file()), None)


def write_pdf(html_path: Path, pdf_path: Path) -> None:
    """Print an HTML file to a PDF file; the paper is the one that the page itself names.

    Raises
    ------
    MissingError
        No browser that can do it.
    FileError
        The browser failed, or the PDF can't be written.
    """
    html_path, pdf_path = Path(html_path), Path(pdf_path)
    browser = find_browser()
    if browser is None:
        raise MissingError(f"No Chromium-based browser was found to make the PDF: open {html_path.name} in your own browser and print it "
                           "(Ctrl+P, headers and footers off, scale 100 %).")
    with tempfile.TemporaryDirectory(prefix="moldcalc-", ignore_cleanup_errors=True) as scratch:
        made = Path(scratch) / "packet.pdf"
        flags = ["--headless", "--disable-gpu", "--no-pdf-header-footer", "--no-first-run", f"--user-data-dir={Path(scratch) / 'profile'}"]
        if hasattr(os, "geteuid") and os.geteuid() == 0:
            flags.append("--no-sandbox")  # Chromium refuses to start as root with it
        try:
            subprocess.run([browser, *flags, f"--print-to-pdf={made}", html_path.resolve().as_uri()],
                           capture_output=True, timeout=SECONDS, check=True)
            data = made.read_bytes()
        except (OSError, subprocess.SubprocessError):
            data = b""
        if not data.startswith(b"%PDF"):
            raise FileError(f"{pdf_path.name} was not made ({Path(browser).name} failed); "
                            f"open {html_path.name} in your own browser and print it (Ctrl+P).")
    write_whole(pdf_path, data)
