"""Air pressure by weighing the air above: dp/dh = -p g(h) / (R T(h)), integrated by scipy, with
gravity falling by the inverse square and the standard's lapse in geopotential height. In: m. Out:
kPa."""

from scipy.integrate import solve_ivp

from questions import answer

EARTH, GRAVITY, GAS, SEA_LEVEL, LAPSE = 6356766, 9.80665, 287.05287, 288.15, 0.0065


def change(height, pressure):
    kelvin = SEA_LEVEL - LAPSE * EARTH * height / (EARTH + height)
    return -pressure * GRAVITY * (EARTH / (EARTH + height)) ** 2 / (GAS * kelvin)


def pressure(metres):
    if metres == 0:
        return [101.325]
    return solve_ivp(change, (0, metres), [101.325], rtol=1e-11, atol=1e-11).y[:, -1]


if __name__ == "__main__":
    answer(pressure)
