"""Plane outlines: polygons, shapes with holes, and outlines on the ellipsoid."""
