"""The photos that a site shows: copied under the sum of their bytes, only as they were checked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from builder.model.vehicle import Vehicle
from builder.pipeline.checking.photos import taken_photo
from builder.rendering.pages.photos import PhotoView, photo_view
from builder.rendering.writing import AddressTakenError, WrittenFile, make_folders, write_files


def write_photos(
    site: Path, vehicle: Vehicle, record: Path, private: Sequence[Path]
) -> list[WrittenFile]:
    """Copy the shown photos of a vehicle from beside its record into the site's folder.

    Two records may show the same picture: then it stands there once.

    Raises:
        OSError: one is not what was checked any more, or the disk refused.
    """
    return [_written(site, vehicle, view, record, private) for view in _shown(vehicle)]


def _shown(vehicle: Vehicle) -> Iterator[PhotoView]:
    views = (photo_view(vehicle, photo) for photo in vehicle.photos)
    return (view for view in views if view)


def _written(
    site: Path, vehicle: Vehicle, view: PhotoView, record: Path, private: Sequence[Path]
) -> WrittenFile:
    found, content = taken_photo(record.with_name(view.file), private)
    if found != vehicle.photo_files[view.file]:
        raise OSError(f"{view.file} of {vehicle.id} was changed while the site was built")
    make_folders(site, [view.url])
    try:
        return write_files(site, [(view.url, content)])[0]
    except AddressTakenError:  # the same bytes, by another record
        return WrittenFile(view.url, len(content), found.sha256)
