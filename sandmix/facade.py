"""The JSON door under its short name: ``sandmix.facade.call``."""

from __future__ import annotations

from sandmix.doors.facade import call

__all__ = ["call"]
