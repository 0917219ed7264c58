"""What sets the devices of one kind apart."""

from __future__ import annotations

from dataclasses import fields

from coaxwright.frozen_value import frozen_value


@frozen_value
class Options:
    """The options that a design names a device of a kind by; an option that the device has not is None."""

    ways: int | None = None
    """Outputs among which the whole signal is divided."""
    inputs: int | None = None
    outputs: int | None = None
    value_db: float | None = None
    """The value that the trade calls it by: of a tap, pad or equalizer [dB]."""
    variant: str | None = None

    @property
    def named(self) -> tuple[str, ...]:
        """The names of the options that the device has."""
        return tuple(field.name for field in fields(self) if getattr(self, field.name) is not None)
