"""One clip followed by hand from the wind speed, with nothing but the words of the printed calculation.

The text is that of the PDF, as an independent reader finds it. Beams are solved by the three-moment equation written out
(`support.beams_by_hand`), everything else with the figures and equations on paper. Nothing of the engine is called after
the paper is printed, but for the utilisation that stands on it at the end.
"""

from __future__ import annotations

import datetime
import io
import math
import re
from dataclasses import dataclass
from functools import cache

import numpy as np
import pypdf
import pytest

from engine.comparison.compare import compare
from engine.export.calculation import calculation
from engine.export.document_files import to_pdf
from engine.export.stamp import Stamp
from engine.units import System
from support import beams_by_hand, scenario_of

WITHIN = 0.01
"""Figures on paper have four digits, places three decimals: what follows from them is right within 1 %."""

SOURCE = re.compile(r" statics| the scenario| \((?:s|1|m|p|c)\)")
"""The end of a step."""

NUMBER = r"(-?[\d,]+(?:\.\d+)?)"


@cache
def paper(name: str, system: System = "us") -> str:
    """The pages as one text, without the line at their feet."""
    pages = pypdf.PdfReader(
        io.BytesIO(to_pdf(calculation(compare(scenario_of(name)), Stamp(datetime.date(2026, 3, 4), system))))
    ).pages
    texts = [
        re.sub(r"loadpath [\d.]+, 2026.*?page \d+ of \d+", "", " ".join(page.extract_text().split())) for page in pages
    ]
    return " ".join(texts)


def number(words: str) -> float:
    return float(words.replace(",", ""))


@dataclass(frozen=True)
class Step:
    """A step on paper: its result, and its equation's values by name."""

    result: float
    values: dict[str, float]

    def __getitem__(self, name: str) -> float:
        return self.values[name]


def step(text: str, symbol: str, meaning: str) -> Step:
    """The first step of a symbol and meaning in a text."""
    found = re.compile(rf"(?<!\w){symbol} = {NUMBER}[^=]*?{re.escape(meaning)}").search(text)
    assert found, (symbol, meaning)
    own = SOURCE.split(text[found.end() :], maxsplit=1)[0]
    values = {name: number(value) for name, value in re.findall(rf"(\w+) = {NUMBER}", own)}
    return Step(number(found[1]), values)


def list_of(words: str) -> np.ndarray:
    return np.array([number(each) for each in re.findall(r"-?\d+(?:\.\d+)?", words)])


def section(text: str, start: str, end: str) -> str:
    """The text between two headings, the last that begins so: the contents name headings too."""
    begin = text.rindex(start)
    return text[begin : text.index(end, begin)]


@dataclass(frozen=True)
class Beam:
    """A beam on paper: supports, the one in question, load places (from, to), and its other rows by name."""

    supports: np.ndarray
    at: int
    rows: dict[str, np.ndarray]
    starts: np.ndarray
    ends: np.ndarray

    def reactions(self) -> np.ndarray:
        """Reactions to loads of 1, a spread load as sixty loads along it."""
        spread = (
            np.linspace(self.starts, self.ends, 121)[1::2] if (self.ends > self.starts).any() else self.starts[None]
        )
        return np.mean([beams_by_hand.three_ways(self.supports, places, self.at)[0] for places in spread], axis=0)


def beam(text: str, loads: str, names: tuple[str, ...], after: str) -> Beam:
    """The beam described in a piece of text; `after` is what follows its table."""
    supports = list_of(re.search(r"Supports at [xy] = ([\d., -]+?) (?:ft|m);", text)[1])  # type: ignore[index]
    at = number(re.search(rf"r at [xy] = {NUMBER}\.", text)[1])  # type: ignore[index]
    table = text[text.rindex(names[0] + " ") :].split(after, maxsplit=1)[0]
    marks = [re.escape(name) for name in names]
    cells = re.search(" (.+?) ".join(marks) + " (.+)", table)
    assert cells
    rows = {name: list_of(cells[place]) for place, name in enumerate(names, 1)}
    places = rows[loads]
    spread = " to " in cells[1]
    starts, ends = (places[::2], places[1::2]) if spread else (places, places)
    return Beam(supports, int(np.argmin(np.abs(supports - at))), rows, starts, ends)


def near(value: float, other: float) -> None:
    assert value == pytest.approx(other, rel=WITHIN)


@pytest.fixture(scope="module")
def text() -> str:
    return paper("kestrel_yard")


def velocity_pressure(text: str) -> float:
    """qh from the wind speed: ASCE 7-16 Eq. 26.10-1 with the site's values on paper."""
    kz, ke = step(text, "Kz", "at mean roof height"), step(text, "Ke", "ground elevation factor")
    qh = step(text, "qh", "velocity pressure")
    exposure = 2.01 * (kz["z"] / kz["zg"]) ** (2 / kz["alpha"])
    elevation = math.exp(-0.0000362 * ke["ze"])
    speed = number(re.search(rf"V = {NUMBER} mph \([^)]*\) basic wind speed the scenario", text)[1])  # type: ignore[index]
    found = qh["Kd"] * 0.00256 * exposure * qh["Kzt"] * elevation * speed**2
    near(found, qh.result)
    return found


def test_modules_on_seams_from_wind_speed_to_clip(text: str) -> None:
    qh = velocity_pressure(text)
    # -- the module edge on two seams: what the attachment has of each module
    clip = section(text, "Clip: modules on seams", "6.8 Panel anchorage")
    edges = section(text, "Module frame under attachment 77 on seam 62", "Seam 62 over its clip")
    edge = beam(edges, "load at x [ft]", ("load at x [ft]", "module (row.column)", "share", "r", "c"), "Seam 62 over")
    shares = edge.rows["share"] * edge.reactions()
    np.testing.assert_allclose(shares, edge.rows["c"], rtol=WITHIN)
    low, high = (number(each) for each in re.search(rf"Module from y = {NUMBER} to {NUMBER} over", edges).groups())  # type: ignore[union-attr]
    chord, length = high - low, edge.ends[0] - edge.starts[0]
    area = float(shares.sum() * chord * length)
    # -- pressure at the attachment's own area, then the module's force
    chain = section(text, "Module clamp: modules on seams", "6.3 Rail")
    near(area, step(chain, "A_j", "effective wind area").result)
    gcp = step(chain, "GCp", "external coefficient")
    external = gcp["G1"] + (gcp["G2"] - gcp["G1"]) * math.log10(area / gcp["A1"]) / math.log10(gcp["A2"] / gcp["A1"])
    equalized = min(0.8, max(0.4, 1.2 - 0.4 * math.log10(area)))
    exposed = step(chain, "C", "net coefficient")["gammaE"]
    pressure = min(qh * external * exposed * equalized, -16)
    near(pressure, step(chain, "p", "W up: net pressure").result)
    wind = float((shares * pressure * chord * length).sum())
    # -- weight, and the combination that governs the clip
    weight = step(clip, "F", "D: force of the module")
    dead = float(shares.sum() * weight["W"] * math.cos(math.radians(weight["theta"])))
    uplift = 0.6 * dead + 0.6 * wind
    near(uplift, step(clip, "N", "force on the attachment").result)
    # -- the seam over its clips
    seam = beam(
        section(text, "Seam 62 over its clip", "6 Components"),
        "y [ft]",
        ("attachment", "y [ft]", "r", "N [lb]", "r N [lb]"),
        "6 Components",
    )
    reactions = seam.reactions()
    np.testing.assert_allclose(reactions, seam.rows["r"], rtol=WITHIN, atol=2e-4)
    assert seam.rows["attachment"][0] == 77
    near(seam.rows["N [lb]"][0], uplift)
    reaction = step(clip, "R", "reaction of the clip")
    rest = reaction["t8"] * reaction["V8"] + reaction["others"] + reaction["surface"]
    on_clip = float(reactions @ seam.rows["N [lb]"]) + rest
    near(on_clip, reaction.result)
    # -- the clip's strength, from the roof's test
    every = section(text, "6.7 Clip", "6.8 Panel anchorage")
    test = step(every, "Rn", "load of one fastening at failure")
    allowable = (
        test["p"] * test["s_rib"] * test["s_fastening"] / step(every, "Ra", "allowable in 0.6D + 0.6W up")["Omega"]
    )
    (column,) = compare(scenario_of("kestrel_yard"), ("direct",)).columns
    near(-on_clip / allowable, column.checks["roof_fastening"].ratio)


def test_rails_by_en_1991_from_wind_velocity_to_clip() -> None:
    """EN 1991-1-4 4.3 to 4.5, EN 1990 6.10, in SI; loads beyond the eight largest as the paper adds them up."""
    text = paper("dunlin_hall", "si")
    basis, terrain = step(text, "qb", "basic velocity pressure"), step(text, "cr", "roughness")
    roughness = 0.19 * (terrain["z0"] / 0.05) ** 0.07 * math.log(terrain["z"] / terrain["z0"])
    gusts = 1 + 7 / math.log(terrain["z"] / terrain["z0"])
    peak = basis["rho"] * basis["vb"] ** 2 / 2 * roughness**2 * gusts
    near(peak, step(text, "qp", "peak velocity pressure").result)
    clip = section(text, "Clip: rails", "Clip: modules on seams")
    net = step(text, "c", "W up: net coefficient").result
    force = step(clip, "F", "W up: force of the module")
    wind_on_module = peak / 1000 * net * force["A"]
    near(wind_on_module, force.result)
    # -- the rail over its attachments
    rail = beam(
        section(text, "Rail under attachment 46 on seam 35", "Seam 35 over its clip"),
        "load at x [m]",
        ("load at x [m]", "module (row.column)", "share", "r", "c"),
        "Seam 35 over",
    )
    shares = rail.rows["share"] * rail.reactions()
    np.testing.assert_allclose(shares, rail.rows["c"], rtol=WITHIN)
    weight = step(section(text, "Attachment: rails", "Attachment: modules on seams"), "F", "D: force of the module")
    dead_on_module = weight["W"] * math.cos(math.radians(weight["theta"]))
    dead, wind = step(clip, "N_D", "D: force on the attachment"), step(clip, "N_W_up", "W up: force on the attachment")
    uplift = 0.9 * (shares.sum() * dead_on_module + dead["others"]) + 1.5 * (
        shares.sum() * wind_on_module + wind["others"]
    )
    near(uplift, step(clip, "N", "force on the attachment").result)
    # -- the seam over its clips, and the clip
    seam = beam(
        section(text, "Seam 35 over its clip", "5.2 Modules on seams"),
        "y [m]",
        ("attachment", "y [m]", "r", "N [kN]", "r N [kN]"),
        "5.2 Modules",
    )
    near(seam.rows["N [kN]"][0], uplift)
    reaction = step(clip, "R", "reaction of the clip")
    on_clip = float(seam.reactions() @ seam.rows["N [kN]"]) + reaction["others"] + reaction["surface"]
    near(on_clip, reaction.result)
    strength = step(clip, "Ra", "design resistance in 0.9D + 1.5W up")
    (column,) = compare(scenario_of("dunlin_hall"), ("rail",)).columns
    near(-on_clip / (strength["Rn"] / strength["gammaM"]), column.checks["roof_fastening"].ratio)
