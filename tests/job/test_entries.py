"""Every entry of every table of the job file and of the cards: defaults, limits, what is written reads back, what is refused."""

import math

import pytest

from moldcalc.errors import EntryError
from moldcalc.job import Job
from moldcalc.job.cards import KINDS
from moldcalc.job.entry import Entry, clock
from moldcalc.job.job import TABLES, all_paths, row_kind
from moldcalc.units import Span, from_shown
from tests.tables import within

ROWS = {f"{table}.{name}": kind for table, made in TABLES.items() for name in made.model_fields if (kind := row_kind(made, name))}
ALL: dict[str, Entry] = {f"{name}.{entry.name}": entry for name, kind in (TABLES | ROWS | {f"card {name}": kind for name,
                                                                                           kind in KINDS.items()}).items()
                         for entry in kind.entries().values()}
QUANTITIES = [name for name, entry in ALL.items() if entry.kind == "quantity"]
COUNTS = [name for name, entry in ALL.items() if entry.kind == "count"]


def same(value, other):
    if isinstance(other, Span):
        return isinstance(value, Span) and all(same(a, b) for a, b in zip((value.low, float(value), value.high),
                                                                          (other.low, float(other), other.high), strict=True))
    return value == (within(other, 1e-5, 1e-12) if isinstance(other, float) else other)


def test_there_are_entries():
    assert len(ALL) > 150
    assert {"coats.coat", "paste.fill", "layup.section", "handling.joint", "handling.lift", "original.solid", "original.station", "split.outline",
            "materials.thing", "materials.test", "keys.station"} == set(ROWS)


@pytest.mark.parametrize("name", ALL)
def test_the_declaration_is_whole(name):
    entry = ALL[name]
    assert entry.label and not entry.label.endswith(".")
    assert entry.low < entry.high or entry.kind not in ("quantity", "count")
    if entry.slider:
        assert entry.low <= entry.slider[0] < entry.slider[1] <= entry.high
    if entry.kind == "choice":
        assert entry.default in entry.choices


@pytest.mark.parametrize("name", [name for name, entry in ALL.items() if entry.default is not None])
def test_the_default_lies_within_the_limits(name):
    entry = ALL[name]
    taken = entry.checked(entry.default, "its default") if entry.kind == "quantity" else entry.take(entry.write(entry.default))
    assert taken == entry.default
    if entry.slider and entry.kind in ("quantity", "count"):
        at = entry.default / from_shown(1, entry.unit) if entry.unit != "°C" else entry.default - 273.15
        assert entry.slider[0] - 1e-9 <= at <= entry.slider[1] + 1e-9


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("name", ALL)
def test_what_is_written_reads_back(name, system):
    entry = ALL[name]
    values = [entry.default]
    if entry.kind == "quantity":
        low, high = (from_shown(end, entry.unit) for end in (entry.low, entry.high))
        values += [low + share * (high - low) for share in (0.1, 0.5, 0.9)]
        values += [Span(low + 0.4 * (high - low), low + 0.1 * (high - low), low + 0.8 * (high - low))]
        values += [Span(low + 0.5 * (high - low), low + 0.1 * (high - low), low + 0.9 * (high - low))]
    for value in values:
        if value is not None:
            assert same(entry.take(entry.write(value, system)), value)
            assert entry.say(value, system) or value == ""
    assert entry.say(None) == "not given"


@pytest.mark.parametrize("name", QUANTITIES)
def test_both_limits_are_allowed_and_beyond_them_is_not(name):
    entry = ALL[name]
    low, high = (from_shown(end, entry.unit) for end in (entry.low, entry.high))
    beyond = 1e-3 * (high - low)
    for value in (low, high):
        assert entry.checked(value, "a limit") == value
        assert same(entry.take(entry.write(value)), value)
        assert entry.checked(Span(value, low, high), "both") == value
    for number in (low - beyond, high + beyond, Span(low, low - beyond, high), Span(low, low, high + beyond)):
        with pytest.raises(EntryError) as refused:
            entry.checked(number, "too much")
        assert str(refused.value).startswith(f"{entry.label} is too much; it must be from ")


@pytest.mark.parametrize("name", COUNTS)
def test_limits_of_counts(name):
    entry = ALL[name]
    assert [entry.take(int(entry.low)), entry.take(str(int(entry.high))), entry.take(float(entry.low))] == [entry.low, entry.high, entry.low]
    for number in (int(entry.low) - 1, int(entry.high) + 1, entry.low + 0.5, "2.5", "-1", "9" * 5000, 1e300):
        with pytest.raises(EntryError, match=f"{entry.label} is .*; it must be a whole number from {entry.low:.0f} to {entry.high:.0f}"):
            entry.take(number)


NONSENSE = [math.nan, math.inf, -math.inf, 1e308, -1e308, 10**400, [], {}, {"low": 1}, {"low": [], "high": {}}, "", "  ", "nan", "inf", "1e400",
            "\x00",
            "\ud800", "x" * 10_000, object(), b"5 mm", (1, 2), None]


@pytest.mark.parametrize("name", ALL)
def test_nonsense_is_refused_by_name(name):
    entry = ALL[name]
    for value in [*NONSENSE, *([] if entry.kind == "flag" else [True])]:
        if entry.optional and (value is None or (isinstance(value, str) and not value.strip())):
            assert entry.take(value) is None
            continue
        if entry.kind in ("text", "card") and value in ("", "  ", "nan", "inf", "1e400"):
            assert entry.take(value) == value.strip()
            continue
        with pytest.raises(EntryError) as refused:
            entry.take(value)
        assert refused.value.faults[0].entry == entry.label
        assert len(str(refused.value)) < 600 and "\n" not in str(refused.value)


@pytest.mark.parametrize(("path", "value", "says"), [
    ("coats.wall", "6", "Wall when finished is 6; it has no unit; write a length, like 6 mm or 1/4 in."),
    ("coats.wall", 6, 'Wall when finished is 6; it has no unit; write it in quotes with one, like "6 mm".'),
    ("coats.wall", "90 mm", "Wall when finished is 90 mm; it must be from 1 mm to 40 mm."),
    ("coats.wall", "9 in", "Wall when finished is 9 in; it must be from 0.039 in to 1 9/16 in."),
    ("cure.temperature", "200 °F", "Room temperature is 200 °F; it must be from -4 °F to 140 °F."),
    ("mixing.people", 0, "People brushing at once is 0; it must be a whole number from 1 to 12."),
    ("mixing.losses", "film and brsh", "it must be one of: film and brush, my own shares; did you mean film and brush?"),
    ("mixing.poured_base", "16 oz", "it could be ounces by weight or fluid ounces"),
    ("cure.started", "9", "write a clock time, like 09:30 or 4:10 pm"),
    ("coats.count_growth", 1, "it must be true or false"),
    ("coats.wall", {"low": "7 mm", "high": "5 mm"}, "Wall when finished is out of order; low, likely and high must rise."),
    ("coats.wall", {"low": "5 mm"}, "Wall when finished is a table of low; give low and high, and likely if you wish."),
    ("coats.wall", "5 to 90 mm", "it must be from 1 mm to 40 mm"),
])
def test_wording(path, value, says):
    with pytest.raises(EntryError) as refused:
        Job.of().with_entry(path, value)
    assert says in str(refused.value)


def test_low_likely_and_high():
    entry = ALL["coats.wall"]
    span = entry.take({"low": "5 mm", "likely": "5.5 mm", "high": "8 mm"})
    assert (span.low, float(span), span.high) == (within(0.005), within(0.0055), within(0.008))
    assert entry.write(span) == {"low": "5 mm", "likely": "5.5 mm", "high": "8 mm"}
    assert entry.say(span) == "5 mm to 8 mm"
    assert entry.write(entry.take("5 to 7 mm")) == "5 mm to 7 mm"
    assert entry.take({"low": "5 mm", "high": "5 mm"}) == within(0.005)


def test_clock_on_a_later_day():
    assert [clock(0), clock(34200), clock(86400 + 3600)] == ["00:00", "09:30", "01:00 the next day"]


def test_every_fault_of_a_job_at_once():
    with pytest.raises(EntryError) as refused:
        Job.of({"coats": {"wall": "6", "wal": "7 mm", "coat": [{"thickness": "99 mm"}, {"kind": "bild"}]}, "cure": {"temperature": True},
                "coat": {}, "mixing": 5, "paste": {"fill": "x"}, "layup": {"section": [3]}})
    said = [str(fault) for fault in refused.value.faults]
    for part in ("'coat' is not a known table; known are start, ", "did you mean coats?", "[coats] 'wal' is not a known entry", "did you mean wall?",
                 "[cure] Room temperature is True", "[mixing] ", "it must be a table of entries", "it must be rows, each under [[ ]]"):
        assert any(part in line for line in said), (part, said)


def test_faults_in_rows_say_which_row():
    with pytest.raises(EntryError) as refused:
        Job.of({"coats": {"wall": "6", "coat": [{"thickness": "1 mm"}, {"thickness": "99 mm"}, {"kind": "bild"}]}})
    said = str(refused.value)
    assert "[coats] Wall when finished is 6;" in said
    assert "[coats] coat 2: Film is 99 mm; it must be from 0.1 mm to 12 mm." in said
    assert "[coats] coat 3: Kind is bild; it must be one of: print, tie, build; did you mean build?" in said


def test_more_rows_than_anyone_needs():
    with pytest.raises(EntryError, match="too many rows; use at most 200"):
        Job.of({"coats": {"coat": [{}] * 201}})


@pytest.mark.parametrize("path", list(all_paths()))
def test_every_path_leads_to_its_entry(path):
    job = Job.of()
    entry = job.entry(path)
    assert same(job.get(path), entry.default)
    if entry.from_card:
        assert job.get(path) is None and job.resolved(path) is not None
    if job.get(path) is not None:
        assert same(job.with_entry(path, entry.write(job.get(path))).get(path), job.get(path))


@pytest.mark.parametrize("path", ["", "coats", "coats.", "coats.wal", "wall", "coats.coat.1", "coats.coat.1.wal", "coats.coat.9.thickness",
                                  "coats.coat.0.thickness",
                                  "coats.coat.-1.thickness", "coats.coat.x.thickness", "coats.coat.².thickness", "coats.wall.1.thickness",
                                  "cards.rubber.density",
                                  "__class__.x", "coats.__class__"])
def test_a_path_that_leads_nowhere(path):
    with pytest.raises(EntryError):
        Job.of().with_entry(path, "2 mm")


def test_a_job_is_never_edited_in_place():
    job = Job.of()
    other = job.with_entries(coats__wall="8 mm", cure__temperature="16 °C").with_entry("coats.coat.2.thickness", "1 mm")
    assert (job.coats.wall, other.coats.wall) == (within(0.006), within(0.008))
    assert (job.coats.coat[1].thickness, other.coats.coat[1].thickness) == (within(0.0012), within(0.001))
    assert other.coats.coat[0] == job.coats.coat[0]


def test_spans_of_a_job_name_their_places():
    job = Job.of().with_entry("coats.coat.2.thickness", "1 to 1.5 mm")
    paths = dict(job.spans())
    assert {"coats.coat.2.thickness", "original.area", "cards.rubber.activation_energy"} <= set(paths)
    assert all(span.low < span.high for span in paths.values())
    assert "cards.rubber.activation_energy" not in dict(job.with_entry("cure.activation_energy", "50 kJ/mol").spans())
    assert job.drawn({"coats.coat.2.thickness": 0.0011}).coats.coat[1].thickness == 0.0011
