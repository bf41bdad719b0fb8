"""Bounds from a draw by lot as scipy works them.

Reads rows of `lot,drawn,bad,confidence,most bad,without end`, works the last two anew, and prints
the rows with its own values. Ends with 1 where a value it read is not its own.
"""

import sys

import scipy
from scipy.stats import beta, hypergeom


def most_bad(lot, drawn, bad, confidence):
    """The largest number of bad ones in the lot with P(no more than these drawn) > 1 - confidence."""
    least, most = bad, lot - (drawn - bad)
    while least < most:
        middle = most - (most - least) // 2
        if hypergeom.cdf(bad, lot, middle, drawn) > 1 - confidence + 1e-12:
            least = middle
        else:
            most = middle - 1
    return least


def without_end(drawn, bad, confidence):
    """Clopper-Pearson, one-sided, by the beta distribution."""
    return 1.0 if bad == drawn else beta.ppf(confidence, bad + 1, drawn - bad)


def main():
    print(f"# scipy {scipy.__version__}: stats.hypergeom.cdf, stats.beta.ppf")
    print("# lot,drawn,bad,confidence,most bad,without end")
    differences = 0
    for line in sys.stdin:
        lot, drawn, bad, confidence, ours, our_share = line.strip().split(",")
        lot, drawn, bad, sure = int(lot), int(drawn), int(bad), float(confidence)
        most = most_bad(lot, drawn, bad, sure)
        share = without_end(drawn, bad, sure)
        print(f"{lot},{drawn},{bad},{confidence},{most},{share:.9f}")
        if most != int(ours) or abs(share - float(our_share)) > 1e-6:
            differences += 1
            print(f"{line.strip()}: scipy has {most} and {share:.9f}", file=sys.stderr)
    return 1 if differences else 0


if __name__ == "__main__":
    sys.exit(main())
