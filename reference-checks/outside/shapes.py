"""A frustum filled to a depth, by summing slices with scipy's quadrature. In: base and mouth radius
and height of the whole, depth, all m. Out: litres up to there, side wetted m², base wetted m²."""

from math import hypot, pi

from scipy.integrate import quad

from questions import answer


def filled(base, mouth, height, depth):
    def radius(z):
        return base + (mouth - base) * z / height

    slope = hypot(1, (mouth - base) / height)
    volume = quad(lambda z: pi * radius(z) ** 2, 0, depth)[0]
    side = quad(lambda z: 2 * pi * radius(z) * slope, 0, depth)[0]
    return 1000 * volume, side, pi * base ** 2


if __name__ == "__main__":
    answer(filled)
