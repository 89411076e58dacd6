"""What may touch what: rows of pairs, checked, and looked up without ever guessing."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal, get_args

from moldcalc.errors import EntryError, Fault, clipped

Verdict = Literal["fine", "seal", "release", "never", "unknown: patch test"]
Confidence = Literal["verified", "common practice", "from memory"]
Kind = Literal["surface and rubber", "rubber and rubber", "rubber and shell", "shell and shell", "cast and rubber"]

VERDICTS: tuple[str, ...] = get_args(Verdict)
CONFIDENCES: tuple[str, ...] = get_args(Confidence)
KINDS: tuple[str, ...] = get_args(Kind)
UNKNOWN: Verdict = "unknown: patch test"
#: said after every verdict: none replaces the test
ALWAYS = "Patch test: full demold time, contact face touched."
_COLUMNS = {"first", "second", "advice", "verdict", "confidence", "source"}
LONGEST = 400
MOST_ROWS = 5000


@dataclass(frozen=True)
class Pair:
    """Two materials that touch: what is said of it, how sure, and by whom.

    ``first`` is what is there already (surface, older rubber, rubber under a shell, cast), ``second`` what comes to it.
    ``test``: a patch test is asked for although the verdict is fine.
    """

    kind: str
    first: str
    second: str
    advice: str
    verdict: str
    confidence: str
    source: str
    test: bool = False


def spelled(name: str) -> str:
    """A material's name as it is compared: one space between words, lower case."""
    return " ".join(name.split()).casefold()


def read_pairs(tables: Mapping[str, Any]) -> tuple[Pair, ...]:
    """Pairs from plain rows, as a data file gives them: kind -> rows with first, second, advice, verdict, confidence, source.

    Parameters
    ----------
    tables
        One list of rows for each kind: surface and rubber, rubber and rubber, rubber and shell, shell and shell, cast and
        rubber. A row may also say ``test = true``: ask for a patch test although it is fine.

    Returns
    -------
    The pairs, in their order.

    Raises
    ------
    EntryError
        Every row that can't be used, at once: a column missing or empty, unknown or not text; a verdict or a confidence that
        is none of ours (so no row goes unmarked); the same pair twice.

    Notes
    -----
    Range: some thousands of rows.
    Source: each row names its own.

    Examples
    --------
    >>> rows = read_pairs({"surface and rubber": [{"first": "glass", "second": "tin-cure silicone", "advice": "Release it.",
    ...     "verdict": "release", "confidence": "from memory", "source": "general knowledge"}]})
    >>> rows[0].verdict
    'release'
    """
    faults: list[Fault] = []
    pairs: list[Pair] = []
    seen: set[tuple[str, frozenset[str]]] = set()
    for kind, rows in tables.items():
        if kind not in KINDS or not isinstance(rows, (list, tuple)):
            faults.append(Fault("kind of pairs", clipped(kind) or "empty", f"it must be a list of rows named {_or(KINDS)}"))
            continue
        if len(rows) > MOST_ROWS:
            raise EntryError(Fault(kind, f"a list of {len(rows)}", f"give at most {MOST_ROWS} rows"))
        for place, row in enumerate(rows, start=1):
            where = f"row {place} of {kind}"
            wrong = _faults(where, row)
            if wrong:
                faults += wrong
                continue
            pair = Pair(kind, **{name: " ".join(row[name].split()) for name in _COLUMNS}, test=row.get("test", False))
            both = (kind, frozenset((spelled(pair.first), spelled(pair.second))))
            if both in seen:
                faults.append(Fault(where, clipped(f"{pair.first} and {pair.second}"), "this pair stands there already; keep one of them"))
            seen.add(both)
            pairs.append(pair)
    if faults:
        raise EntryError(faults)
    return tuple(pairs)


def _faults(where: str, row: object) -> list[Fault]:
    if not isinstance(row, Mapping):
        return [Fault(where, clipped(row) or "empty", "it must be a row of named columns")]
    found = [Fault(f"{name} in {where}", "missing", "give it") for name in sorted(_COLUMNS - set(row))]
    for name, value in row.items():
        entry = f"{clipped(name, 20)} in {where}"
        if name == "test":
            found += [] if isinstance(value, bool) else [Fault(entry, clipped(value) or "empty", "it must be true or false")]
        elif name not in _COLUMNS:
            found.append(Fault(entry, clipped(value) or "empty", f"there is no such column; there are {', '.join(sorted(_COLUMNS))} and test"))
        elif not isinstance(value, str) or not value.strip() or len(value) > LONGEST:
            found.append(Fault(entry, clipped(value) or "empty", f"write it as text of at most {LONGEST} letters"))
    for name, allowed in (("verdict", VERDICTS), ("confidence", CONFIDENCES)):
        value = row.get(name)
        if isinstance(value, str) and value.strip() and value not in allowed:
            found.append(Fault(f"{name} in {where}", clipped(value), f"it must be {_or(allowed)}"))
    return found


def _or(words: Sequence[str]) -> str:
    return f"{', '.join(words[:-1])} or {words[-1]}"


def find_pair(pairs: Iterable[Pair], *, kind: str, first: str, second: str) -> Pair:
    """The row for two materials, whichever of the two is named first; an unknown pair is 'unknown: patch test', never 'fine'.

    Raises
    ------
    EntryError
        A kind of pair that there is not; a name that is empty or too long.

    Examples
    --------
    >>> find_pair((), kind="surface and rubber", first="moon dust", second="tin-cure silicone").verdict
    'unknown: patch test'
    """
    if kind not in KINDS:
        raise EntryError(Fault("kind of pair", clipped(kind) or "empty", f"it must be {_or(KINDS)}"))
    for entry, name in (("first", first), ("second", second)):
        if not isinstance(name, str) or not name.strip() or len(name) > LONGEST:
            raise EntryError(Fault(f"{entry} of the pair", clipped(name) or "empty", "write the name of a material"))
    wanted = frozenset((spelled(first), spelled(second)))
    for pair in pairs:
        if pair.kind == kind and frozenset((spelled(pair.first), spelled(pair.second))) == wanted:
            return pair
    return Pair(kind, " ".join(first.split()), " ".join(second.split()), "This pair is not in the table.", UNKNOWN, "from memory",
                "no row in the table", True)


def needs_test(pair: Pair) -> bool:
    """Whether a surface holds the next step until its patch test is entered: all that is not plainly fine against a rubber."""
    return pair.kind in ("surface and rubber", "rubber and rubber") and (pair.test or pair.verdict in ("seal", "never", UNKNOWN))
