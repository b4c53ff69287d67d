"""Spread of a count by scipy's statistics. In: living share, cells counted. Out: the standard
deviation of the share found."""

from scipy.stats import binom

from questions import answer

if __name__ == "__main__":
    answer(lambda share, counted: [binom.std(int(counted), share) / counted])
