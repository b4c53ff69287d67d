"""Heat through a wall between two still liquids, per square metre and kelvin: the films by Churchill
and Chu's correlation for an upright plate, with water by the IAPWS's general formulations, and the
wall's two faces found by scipy's root finder. In: height m, wall m, its W/(m K), wort and bath °C,
swirl factor. Out: W/(m² K), and the inside film alone."""

from iapws import IAPWS95, _ThCond, _Viscosity
from scipy.optimize import fsolve

from questions import answer


def film(height, liquid, wall):
    middle = (liquid + wall) / 2 + 273.15
    w = IAPWS95(T=middle, P=0.2)
    viscosity, conductivity = _Viscosity(w.rho, middle), _ThCond(w.rho, middle)
    prandtl = 1000 * w.cp * viscosity / conductivity
    rayleigh = (9.80665 * abs(w.alfav) * abs(liquid - wall) * height ** 3
                / (viscosity / w.rho) ** 2 * prandtl)
    nusselt = (0.825 + 0.387 * rayleigh ** (1 / 6)
               / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2
    return nusselt * conductivity / height


def overall(height, wall, conductivity, wort, bath, swirl):
    def unbalanced(faces):
        inner, outer = faces
        through = conductivity / wall * (inner - outer)
        return (swirl * film(height, wort, inner) * (wort - inner) - through,
                film(height, bath, outer) * (outer - bath) - through)

    third = (wort - bath) / 3
    inner, outer = fsolve(unbalanced, (wort - third, bath + third), xtol=1e-12)
    return (conductivity / wall * (inner - outer) / (wort - bath),
            film(height, wort, wort - third))


if __name__ == "__main__":
    answer(overall)
