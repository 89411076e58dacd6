"""The plan's results for other programs: JSON and CSV, each value in the metric unit that stands beside it."""

import csv
import io
import json
import math
from typing import Any

from moldcalc.plan.results import Plan, Result, said
from moldcalc.units import shown
from moldcalc.units.showing import UNITS

COLUMNS = ("name", "label", "value", "unit", "low", "high", "why", "source")
_STARTS_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def plan_json(plan: Plan) -> str:
    """Every result and every caution of a plan as JSON; what is not known is null."""
    whole = {
        "job": plan.job.start.title,
        "results": [result_line(result) for result in plan.results()],
        "cautions": [{"stage": caution.stage, "kind": caution.kind, "text": caution.text} for caution in plan.cautions],
    }
    return json.dumps(whole, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def plan_csv(plan: Plan) -> str:
    """Every result of a plan as CSV (RFC 4180). Text that a spreadsheet would run as a formula gets a quote before it."""
    sheet = io.StringIO(newline="")
    writer = csv.writer(sheet, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for result in plan.results():
        writer.writerow([_plain(value) for value in result_line(result).values()])
    return sheet.getvalue()


def result_line(result: Result) -> dict[str, Any]:
    """One result as plain values, in the metric unit that stands beside it."""
    values = {"value": result.value, "low": result.low, "high": result.high}
    told = {name: _number(value, result.unit) for name, value in values.items()}
    return {"name": result.name, "label": result.label, "value": told["value"], "unit": result.unit, "low": told["low"], "high": told["high"],
            "why": result.why, "source": result.source}


def _number(value: Any, unit: str) -> Any:
    """A value in its shown metric unit: a number, or text for clock times and words; None for what is not known or not finite."""
    if value is None or (isinstance(value, float) and not math.isfinite(value)):
        return None
    if unit in UNITS and not isinstance(value, str):
        return shown(float(value), unit)
    if unit == "count":
        return round(value)
    return said(value, unit, "metric")


def _plain(value: Any) -> Any:
    if value is None:
        return ""
    return f"'{value}" if isinstance(value, str) and value.startswith(_STARTS_FORMULA) else value
