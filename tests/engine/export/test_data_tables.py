"""The long tables as pandas reads them: ids and figures of JSON, one kind of value a column, nothing a name could break."""

from __future__ import annotations

import csv
import datetime
import io
import json
from functools import cache
from typing import Any

import numpy as np
import pandas as pd
import pytest

from engine.comparison.compare import Comparison, compare
from engine.comparison.reactions import reactions
from engine.comparison.record import comparison_record
from engine.export.bundle import bundle
from engine.export.csv import DIGITS, written
from engine.export.data_tables import FILE, data_files
from engine.export.json import to_json
from engine.export.stamp import Stamp
from engine.studies.spacing import study
from engine.units import POUND_FORCE, number
from support import scenario_of

DAY = datetime.date(2026, 3, 4)
ROUNDED = 0.5 * 10 ** (1 - DIGITS)
TABLES = ("figures", "links", "bill", "flags", "attachments", "reactions", "line_loads", "studies")


@cache
def comparison(name: str) -> Comparison:
    return compare(scenario_of(name))


@cache
def frame(name: str, table: str, system: str = "us") -> pd.DataFrame:
    text = data_files(comparison(name), Stamp(DAY, system))[FILE.format(table)]()  # type: ignore[arg-type]
    return pd.read_csv(io.StringIO(text), comment="#")


@cache
def methods(name: str) -> dict[str, dict[str, Any]]:
    record = json.loads(to_json(comparison_record(comparison(name), with_attachments=True), Stamp(DAY)))
    return {method["method"]: method for method in record["methods"]}


def test_each_is_a_file_of_the_export() -> None:
    names = {file.name for file in bundle(comparison("sparrow_lane"), Stamp(DAY))}
    assert {FILE.format(table) for table in TABLES} == set(data_files(comparison("sparrow_lane"), Stamp(DAY))) < names


@pytest.mark.parametrize("name", ["kestrel_yard", "sparrow_lane", "plover_terrace"])
@pytest.mark.parametrize("system", ["us", "si"])
def test_figures_are_those_of_json(name: str, system: str) -> None:
    table = frame(name, "figures", system).set_index(["method", "figure"])
    assert table.index.is_unique
    for method, record in methods(name).items():
        for key, dimension in {
            "attachments": "count",
            "weakest_utilisation": "ratio",
            "point_load_up_n": "force",
            "mass_kg": "mass",
            "total_cost": "money",
        }.items():
            value = table.loc[(method, key), "value"]
            if record[key] is None:
                assert np.isnan(value)
            else:
                assert value == pytest.approx(number(record[key], dimension, system), rel=ROUNDED)  # type: ignore[arg-type]
        assert table.loc[(method, "status"), "words"] == record["status"]


@pytest.mark.parametrize("name", ["kestrel_yard", "sparrow_lane"])
def test_links_bill_and_flags_are_those_of_json(name: str) -> None:
    links, bill, flags = (frame(name, table) for table in ("links", "bill", "flags"))
    expected = [
        (method, link["link"], link["utilisation"])
        for method, record in methods(name).items()
        for link in record["links"]
    ]
    assert list(zip(links["method"], links["link"], strict=True)) == [each[:2] for each in expected]
    np.testing.assert_allclose(
        links["utilisation"], [np.nan if each[2] is None else each[2] for each in expected], ROUNDED
    )
    for method, record in methods(name).items():
        own = bill[bill["method"] == method].set_index("part")
        assert own.index.tolist() == [*(line["part"] for line in record["bill"]), "module"]
        for line in record["bill"]:
            assert own.loc[line["part"], "quantity"] == line["quantity"]
            assert own.loc[line["part"], "price"] == pytest.approx(line["price"], rel=ROUNDED)
        assert own.loc["module", "quantity"] == record["modules"]
        assert flags.loc[flags["method"] == method, "code"].tolist() == [flag["code"] for flag in record["flags"]]
    assert bill["quantity"].dtype.kind == "i"


@pytest.mark.parametrize("name", ["kestrel_yard", "sparrow_lane"])
def test_attachments_are_those_of_json(name: str) -> None:
    table = frame(name, "attachments")
    assert {table[column].dtype.kind for column in ("attachment", "row", "rib")} == {"i"}
    for method, record in methods(name).items():
        own, each = table[table["method"] == method], record["attachment_schedule"]
        assert own["attachment"].tolist() == [one["number"] for one in each]
        assert own["rib"].tolist() == [one["rib"] for one in each]
        assert own["verdict"].tolist() == [one["verdict"] for one in each]
        assert own["controlling_component"].fillna("").tolist() == [one["link"] or "" for one in each]
        used = [np.nan if one["utilisation"] is None else one["utilisation"] for one in each]
        np.testing.assert_allclose(own["utilisation"], used, ROUNDED)
        np.testing.assert_allclose(own["from_eave_m"], [one["y_m"] for one in each], ROUNDED)


def test_reactions_are_those_of_every_attachment_and_case() -> None:
    table = frame("kestrel_yard", "reactions").set_index(["method", "case", "direction"])
    for column in comparison("kestrel_yard").columns:
        assert column.candidate
        for (case, direction), force in reactions(column.candidate.demands).attachments.items():
            own = table.loc[[(column.id, case, direction or "normal")]]
            assert own["attachment"].tolist() == list(range(1, len(force) + 1))
            np.testing.assert_allclose(own["reaction"], force / POUND_FORCE, ROUNDED, 0.005)
    assert {
        (case, level) for case, level in zip(table.index.get_level_values("case"), table["level"], strict=True)
    } >= {
        ("D", "service"),
        ("W up", "strength"),
    }


def test_line_loads_are_those_of_the_purlins() -> None:
    table = frame("kestrel_yard", "line_loads", "si").set_index(["method", "load_from", "case"])
    for column in comparison("kestrel_yard").columns:
        assert column.candidate
        found = reactions(column.candidate.demands).purlins
        assert found
        for case, load in found.from_attachments.items():
            own = table.loc[[(column.id, "attachments", case)], "reaction"]
            np.testing.assert_allclose(own, load / 1000, ROUNDED, 1e-7)


def test_a_roof_without_purlins_has_no_line_loads() -> None:
    assert frame("plover_terrace", "line_loads").empty


def test_studies_have_a_row_a_spacing_and_component() -> None:
    table, studied = frame("sparrow_lane", "studies"), study(scenario_of("sparrow_lane"))
    expected = [
        (each.id, check.link, row.attachments) for each in studied for row in each.rows for check in row.checks.values()
    ]
    assert list(zip(table["method"], table["link"], table["attachments"], strict=True)) == expected


@pytest.mark.parametrize(
    ("value", "cell"),
    [(5.250000000000003, "5.25"), (1 / 3, "0.3333333"), (123456.789, "123456.79"), (12345678.9, "12345678.9"), (-0.0, "0"), (1e-9, "1e-09"), (320, "320"), (None, ""), (float("nan"), "")],
)  # fmt: skip
def test_numbers_are_rounded_sensibly(value: float | None, cell: str) -> None:
    assert written(pd.DataFrame({"x": pd.Series([value], dtype=object)}), ()).splitlines()[-1] == cell


FORMULA = '=1+1,=2+2;"=3",@SUM(A1)\t+4'


def test_no_cell_begins_a_formula_whatever_the_names() -> None:
    """As a spreadsheet splits the file: at commas or semicolons, comment rows too."""
    hostile = compare(
        scenario_of(
            "sparrow_lane",
            title=FORMULA.replace("\t", " "),
            currency="=1+1",
            array__keep_clear=[{"at": ["20 ft", "8 ft"], "size": ["2 ft", "3 ft"], "name": "@hatch #1"}],
            accepted={"roof_member": {"by": "=cmd", "document": "+1", "date": "-2"}},
        )
    )
    for file in bundle(hostile, Stamp(DAY)):
        if not file.name.endswith(".csv"):
            continue
        text = str(file.make())
        for delimiter in ",;":
            for row in csv.reader(io.StringIO(text), delimiter=delimiter):
                for cell in row:
                    is_number = cell[:1] == "-" and cell[1:2].isdigit()
                    assert not cell.lstrip().startswith(("=", "+", "@", "-")) or is_number, (file.name, cell)
        assert len(pd.read_csv(io.StringIO(text), comment="#").columns) > 2, file.name


def test_a_number_sign_within_a_text_begins_no_comment() -> None:
    table = pd.DataFrame({"part": ["screw #12", 'the "long" one, red'], "pieces": [3, 4]})
    text = written(table, [("title", "two\nlines"), ("odd", "a,=1")])
    assert text.splitlines()[1:3] == ["# title: two lines", "# odd: a,'=1"]
    pd.testing.assert_frame_equal(pd.read_csv(io.StringIO(text), comment="#"), table, check_dtype=False)
