"""The photos that a site shows: copied under the sum of their bytes, only as they were checked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from builder.model.vehicle import Vehicle
from builder.pipeline.checking.photos import taken_photo
from builder.pipeline.site.site_writer import SiteWriter
from builder.rendering.pages.photos import PhotoView, photo_view
from builder.rendering.writing import AddressTakenError, WrittenFile, make_folders, write_files


def write_photos(
    writer: SiteWriter, vehicle: Vehicle, record: Path, private: Sequence[Path]
) -> list[WrittenFile]:
    """Copy the shown photos of a vehicle from beside its record into the site's folder.

    Two records may show the same picture: then it stands there once.

    Raises:
        OSError: one is not what was checked any more, or the disk refused.
    """
    return [_written(writer, vehicle, view, record, private) for view in _shown(vehicle)]


def take_over_photos(writer: SiteWriter, photos: Sequence[WrittenFile]) -> bool:
    """Take over shown photos from the site that stands; False when one is not to be had.

    Another vehicle may have brought one already: its name is the sum of its bytes.
    """
    make_folders(writer.folder, (photo.url for photo in photos))
    return all((writer.folder / each.url).exists() or writer.is_taken(each) for each in photos)


def _shown(vehicle: Vehicle) -> Iterator[PhotoView]:
    views = (photo_view(vehicle, photo) for photo in vehicle.photos)
    return (view for view in views if view)


def _written(
    writer: SiteWriter, vehicle: Vehicle, view: PhotoView, record: Path, private: Sequence[Path]
) -> WrittenFile:
    found, content = taken_photo(record.with_name(view.file), private)
    if found != vehicle.photo_files[view.file]:
        raise OSError(f"{view.file} of {vehicle.id} was changed while the site was built")
    make_folders(writer.folder, [view.url])
    try:
        return write_files(writer.folder, [(view.url, content)], writer.is_taken)[0]
    except AddressTakenError:  # the same bytes, by another record
        return WrittenFile(view.url, len(content), found.sha256)
