"""What is on paper: readings and the records they belong to, and exceptions granted."""

from __future__ import annotations

from coaxwright.design.fields import AnyTag, Date, Part, RecordTag, Text, may, must
from coaxwright.design.quantities import Decibels, LevelAt, LossAt, Resistance, Voltage


class Reading(Part):
    """What was measured on the thing beside which it stands."""

    record: RecordTag | None = may("The record that it belongs to.", awaits="record.complete")
    port: Text | None = may("The port of the device at which it was taken.", awaits="record.reading-agrees")
    level: LevelAt | None = may("A level.")
    loss: LossAt | None = may("The loss of a cable.")
    return_loss: LossAt | None = may("A return loss.", key="return loss")
    carrier_to_noise: Decibels | None = may(
        "A carrier-to-noise ratio, or the modulation error ratio.",
        key="carrier to noise",
        awaits="noise.carrier-to-noise",
    )
    resistance: Resistance | None = may("The resistance of a loop or of a bond.", awaits="record.reading-agrees")
    voltage: Voltage | None = may("The voltage of a feed.", awaits="power.voltage-drop")
    note: Text | None = may("Anything a reader should know.")


class Record(Part):
    """Who measured, when, and with what."""

    by: Text = must("Who measured.", awaits="record.complete")
    on: Date = must("The day.", awaits="record.complete")
    instrument: Text | None = may("The instrument.", awaits="record.complete")
    calibrated: Date | None = may("When the instrument was last calibrated.", awaits="record.complete")
    note: Text | None = may("Anything a reader should know.")


class Variance(Part):
    """An exception that was granted: the finding stays visible and returns the design no more."""

    rule: Text = must("The rule, such as `protection.antenna-end`.")
    item: AnyTag = must("The tag of the thing that it is granted for.")
    facet: Text | None = may("Which of several findings on the thing is meant, such as a building or a service.")
    reason: Text = must("Why.")
    granted_by: Text = must("Who granted it.", key="granted by")
    until: Date | None = may("The last day on which it holds.")
    note: Text | None = may("Anything a reader should know.")
