"""Water at 0.1 MPa by IAPWS-95, R12-08 and R15-11, the general formulations of the IAPWS, none of
which is what the engine uses. In: °C. Out: density kg/L, expansivity 1/K, specific heat kJ/(kg K),
viscosity mPa s, conductivity W/(m K), and by SR6-08 viscosity and conductivity again."""

from iapws import IAPWS95, _ThCond, _Viscosity
from iapws._iapws import _Liquid

from questions import answer


def water(celsius):
    kelvin = celsius + 273.15
    # At the boil a hair more pressure keeps it liquid.
    w = IAPWS95(T=kelvin, P=0.1 if celsius < 99 else 0.2)
    short = _Liquid(kelvin, 0.1)
    return (w.rho / 1000, w.alfav, w.cp, 1000 * _Viscosity(w.rho, kelvin),
            _ThCond(w.rho, kelvin), 1000 * short["mu"], short["k"])


if __name__ == "__main__":
    answer(water)
