"""Heat to melt ice at 0 °C: IAPWS-95 for the water, R10-06 for the ice. In: MPa. Out: kJ/kg."""

from iapws import IAPWS95, _Ice

from questions import answer

if __name__ == "__main__":
    answer(lambda pressure: [IAPWS95(T=273.15, P=pressure).h - _Ice(273.1499, pressure)["h"]])
