"""The build file, section by section, each field declared once."""

from hushwright.document.schema.build_file import FORMAT_VERSION, BuildFile, PartitionFile

__all__ = ["FORMAT_VERSION", "BuildFile", "PartitionFile"]
