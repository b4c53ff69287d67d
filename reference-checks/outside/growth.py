"""The published kinetic model in its own units (g/L, hours), integrated by scipy's implicit solver.

In: million living cells per mL, g/L of extract, °C, hours. Out: hours until 95 % of the new cells
are there, the share there at the hours given, grams of new cells per litre in all, and 1 when
growth is over within the 480 hours that are looked at, else 0: a ten-thousandth of the sugar is left,
or the last hour brought a ten-millionth of the new cells.
Lag 96 % and active 4 % of the living yeast at the start, a cell weighing 30 pg, as in
science/kinetics.h."""

from math import exp

from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from questions import answer


def growth(cells, extract, celsius, hours):
    kelvin = celsius + 273.15

    def rate(a, b):
        return exp(a + b / kelvin)

    waking, birth, death = rate(30.72, -9501.54), rate(108.31, -31934.09), rate(130.16, -38313)
    sugar_rate, half, alcohol_rate = (rate(-41.92, 11654.64), rate(-119.63, 34203.95),
                                      rate(3.27, -1267.24))

    def change(_, y):
        lag, active, sugar, alcohol, _born = y
        sugar = max(sugar, 0)
        born = birth * sugar / (extract / 2 + alcohol) * active
        fed = sugar / (half + sugar) * active
        return (-waking * lag, born - death * active + waking * lag, -sugar_rate * fed,
                alcohol_rate * (1 - 2 * alcohol / extract) * fed, born)

    pitched = 0.03 * cells
    run = solve_ivp(change, (0, 480), (0.96 * pitched, 0.04 * pitched, extract, 0, 0),
                    method="LSODA", rtol=1e-10, atol=1e-12, dense_output=True)
    all_born = run.y[4, -1]
    needed = brentq(lambda t: run.sol(t)[4] - 0.95 * all_born, 0, 480, xtol=1e-10)
    over = run.y[2, -1] < 1e-4 * extract or all_born - run.sol(479)[4] < 1e-7 * all_born
    return needed, run.sol(min(hours, 480))[4] / all_born, all_born, over


if __name__ == "__main__":
    answer(growth)
