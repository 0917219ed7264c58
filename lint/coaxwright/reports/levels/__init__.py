"""The levels of a design, as text, table, data or drawing: all of them views of one ``SiteLevels``."""

from coaxwright.reports.levels.gather import OutletRow, Point, ServiceLevels, SiteLevels, site_levels

__all__ = ["OutletRow", "Point", "ServiceLevels", "SiteLevels", "site_levels"]
