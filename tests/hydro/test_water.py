"""Water against the printed table, against TEOS-10 and the published viscosity formulas between."""

import math

import gsw
import pytest

from sizer.errors import BadInput
from sizer.hydro.water import by_temperature, temperature_caution, water_at
from sizer.units import STANDARD_GRAVITY_MPS2

BETWEEN_C = [1.0, 2.5, 7.5, 12.5, 17.5, 22.5, 27.5, 29.0]
SEA_SALINITY_GPKG = 35.165


def iapws_fresh_viscosity_pas(temperature_c):
    # IAPWS SR6-08 (2011), liquid water at 0.1 MPa, eq. 7, good to 1 % of measurement.
    t = (temperature_c + 273.15) / 300
    terms = [(280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40)]
    return 1e-6 * sum(a * t**b for a, b in terms)


def sharqawy_sea_viscosity_pas(temperature_c):
    # Sharqawy, Lienhard & Zubair 2010, eqs. 22 and 23.
    t, s = temperature_c, SEA_SALINITY_GPKG / 1000
    fresh = 4.2844e-5 + 1 / (0.157 * (t + 64.993) ** 2 - 91.296)
    a = 1.541 + 1.998e-2 * t - 9.52e-5 * t**2
    b = 7.974 - 7.561e-2 * t + 4.724e-4 * t**2
    return fresh * (1 + a * s + b * s**2)


def test_gravity_is_the_standard_value():
    assert STANDARD_GRAVITY_MPS2 == 9.80665


@pytest.mark.parametrize(
    ("kind", "temperature_c", "printed"),
    [("fresh", 10, 999.6), ("fresh", 20, 998.1), ("salt", 10, 1026.9), ("salt", 20, 1024.7)],
)
def test_density_matches_tupper_table_5_1(kind, temperature_c, printed):
    # Tupper, Introduction to Naval Architecture, Table 5.1; older data, printed to 0.1.
    assert water_at(kind, temperature_c).density_kgpm3 == pytest.approx(printed, abs=0.11)


@pytest.mark.parametrize("temperature_c", [0, 5, 10, 15, 20, 25, 30, *BETWEEN_C])
@pytest.mark.parametrize(("kind", "salinity"), [("fresh", 0.0), ("salt", SEA_SALINITY_GPKG)])
def test_density_matches_teos10_between_the_rows(kind, salinity, temperature_c):
    conservative_c = gsw.CT_from_t(salinity, temperature_c, 0)
    expected = gsw.rho(salinity, conservative_c, 0)
    assert water_at(kind, temperature_c).density_kgpm3 == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize("temperature_c", BETWEEN_C)
@pytest.mark.parametrize(
    ("kind", "formula"),
    [("fresh", iapws_fresh_viscosity_pas), ("salt", sharqawy_sea_viscosity_pas)],
)
def test_viscosity_matches_published_formulas_between_the_rows(kind, formula, temperature_c):
    water = water_at(kind, temperature_c)
    expected = formula(temperature_c) / water.density_kgpm3
    assert water.viscosity_m2ps == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("kind", ["fresh", "salt"])
def test_viscosity_falls_as_water_warms(kind):
    falling = [water_at(kind, t / 4).viscosity_m2ps for t in range(121)]
    assert falling == sorted(falling, reverse=True)


@pytest.mark.parametrize("temperature_c", [-0.1, 30.1, math.nan, math.inf, "10", True, None])
def test_water_at_refuses_temperatures_outside_the_table(temperature_c):
    with pytest.raises(BadInput) as caught:
        water_at("fresh", temperature_c)
    assert [fault.place for fault in caught.value.faults] == ["water.temperature_c"]
    with pytest.raises(BadInput, match="0 to 30 °C"):
        temperature_caution(temperature_c)


def test_water_at_reports_both_faults_at_once():
    with pytest.raises(BadInput) as caught:
        water_at("brackish", 99)
    assert [f.place for f in caught.value.faults] == ["water.kind", "water.temperature_c"]


@pytest.mark.parametrize(
    ("temperature_c", "words"),
    [(25, "reach the shore"), (24.9, "upset your breathing"), (21, "upset your breathing"),
     (20.9, "immersion clothing"), (15.1, "immersion clothing"), (15, "is cold"),
     (10.1, "is cold"), (10, "stay ashore unless"), (0, "stay ashore unless")],
)  # fmt: skip
def test_temperature_caution_changes_at_the_published_thresholds(temperature_c, words):
    text = temperature_caution(temperature_c).replace("\N{NO-BREAK SPACE}", " ")
    assert words in text
    assert f"{temperature_c:g} °C ({9 * temperature_c / 5 + 32:.0f} °F)" in text
    assert "Local rules and instructed practice come first" in text


def test_temperature_caution_promises_no_survival_time():
    texts = " ".join(temperature_caution(t) for t in range(31)).lower()
    assert "hour" not in texts
    assert "surviv" not in texts


@pytest.mark.parametrize("water_c", [25.0, 21.0, 18.0, 15.0, 12.0, 10.0, 4.0])
def test_every_water_finds_its_line_and_the_boats_own_bears_its_caution(water_c):
    """A temperature inside each line asks word for word for what its caution does; who has not been
    in such water with an instructor goes out in the first alone."""
    lines = by_temperature(water_c)
    for (measured, asks, goes), inside in zip(lines, (21, 18, 12, 8), strict=True):
        assert temperature_caution(inside).split(") ", 1)[1].split(". ")[0] in asks or (
            temperature_caution(water_c) == asks)
        assert ("Only here" in goes) == (inside == 21), measured
    own, = (line for line, one in enumerate(lines) if one[1] == temperature_caution(water_c))
    assert own == (0 if water_c >= 21 else 1 if water_c > 15 else 2 if water_c > 10 else 3)
    assert [one[0].replace("\xa0", " ") for one in lines] == [
        "21 °C (70 °F) or more", "under 21 °C (70 °F), over 15 °C (59 °F)",
        "15 °C (59 °F) or less, over 10 °C (50 °F)", "10 °C (50 °F) or less"]
    assert "Never alone" in lines[1][2]
    assert [one[2] for one in by_temperature(water_c, "ASHORE")][2:] == ["ASHORE"] * 2
    assert "ASHORE" not in " ".join(one[2] for one in by_temperature(water_c, "ASHORE")[:2])
