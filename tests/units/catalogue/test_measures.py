from __future__ import annotations

import pytest

from coaxwright.catalogue.measures import CapacitancePerLength, Percent, ResistancePerLength, TransferImpedance
from coaxwright.design.quantities import QuantityError


def test_values_in_si_units() -> None:
    assert Percent.parse("85 %").share == pytest.approx(0.85)
    assert Percent.parse("-8.0%").share == pytest.approx(-0.08)
    assert ResistancePerLength.parse("6.39 ohm/1000 ft").resistance_ohm_per_m == pytest.approx(0.020965, abs=1e-6)
    assert ResistancePerLength.parse("21 ohm/km").resistance_ohm_per_m == pytest.approx(0.021)
    assert CapacitancePerLength.parse("15.9 pF/ft").capacitance_pf_per_m == pytest.approx(52.165, abs=0.001)
    assert CapacitancePerLength.parse("52 pF/m").capacitance_pf_per_m == 52
    assert TransferImpedance.parse("2.5 mohm/m").impedance_ohm_per_m == pytest.approx(0.0025)


@pytest.mark.parametrize("quantity", [Percent, ResistancePerLength, CapacitancePerLength, TransferImpedance])
@pytest.mark.parametrize("text", ["", "85", "ohm/km", "1 ohm", "5 pF", 85, None])
def test_other_texts_are_refused(quantity: type[Percent], text: object) -> None:
    with pytest.raises(QuantityError):
        quantity.parse(text)
