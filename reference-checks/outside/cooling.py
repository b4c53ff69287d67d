"""Two bodies, the second perhaps with ice: integrated by scipy rather than solved.

In: C1 kJ/K, T1, C2, T2, UA W/K, ice kg at 0 °C, wort temperature at which it goes in, target, hours.
Ice takes the bath's heat at once, down to 0 °C; what is left holds it there until it is melted.
Out: minutes until the wort is at the target (-1 when that takes longer than the hours given), wort
and bath temperature and ice left at that moment."""

from scipy.integrate import solve_ivp

from questions import answer

LATENT, WATER = 333.5, 4.184


def chill(c1, t1, c2, t2, ua, ice, ice_from, target, hours):
    clock, most = 0.0, hours * 3600
    power = ua / 1000

    def run(change, state, stops):
        nonlocal clock
        events = []
        for stop in stops:
            stop.terminal = True
            events.append(stop)
        r = solve_ivp(change, (clock, most), state, events=events, rtol=1e-11, atol=1e-11,
                      method="DOP853", max_step=120)
        clock = r.t[-1]
        return r.y[:, -1]

    def two_bodies(_, y):
        flow = power * (y[0] - y[1])
        return -flow / c1, flow / c2

    def over_ice(_, y):
        flow = power * y[0]
        return -flow / c1, -flow / LATENT

    def at(temperature):
        return lambda _, y: y[0] - temperature

    if ice > 0 and ice_from > target:
        t1, t2 = run(two_bodies, (t1, t2), [at(ice_from)])
        melts = min(ice, c2 * t2 / LATENT)
        t2 = (c2 * t2 - LATENT * melts) / (c2 + WATER * melts)
        c2 += WATER * melts
        ice -= melts
        if ice > 0:
            t2 = 0.0
            before = ice
            t1, ice = run(over_ice, (t1, ice), [at(target), lambda _, y: y[1]])
            ice = max(ice, 0)
            c2 += WATER * (before - ice)
    if t1 > target + 1e-9:
        t1, t2 = run(two_bodies, (t1, t2), [at(target)])
    reached = t1 <= target + 1e-6
    return clock / 60 if reached else -1, t1, t2, ice


if __name__ == "__main__":
    answer(chill)
