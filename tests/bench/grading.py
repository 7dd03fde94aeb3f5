"""The arithmetic of one graded sock, exact, for eight sizes and two gauges: the peer of process_bench.cpp."""

from fractions import Fraction as F

FOOT_LENGTH = [F(21, 2), 13, 16, F(37, 2), 21, F(49, 2), 27, F(59, 2)]
FOOT_AROUND = [F(23, 2), F(27, 2), F(31, 2), F(35, 2), F(39, 2), F(45, 2), 25, 27]
LEG_LENGTH = [6, 8, 10, 12, 14, 16, 18, 19]


def to_multiple(value, step):
    return int((value / step + F(1, 2)) // 1) * step


def grade(stitches, rows):
    lines = []
    for length, around, leg in zip(FOOT_LENGTH, FOOT_AROUND, LEG_LENGTH):
        body = to_multiple(around * F(9, 10) * stitches, 4)
        half = body // 2
        heel = to_multiple(F(half, 3), 2)
        shaping = half - heel
        foot = to_multiple(length * F(95, 100) * rows - 2 * shaping, 2)
        lines.append((body, heel, to_multiple(leg * rows, 2), foot))
    return lines


for gauge in ((F(24, 10), F(34, 10)), (F(30, 10), F(42, 10))):
    columns = list(zip(*grade(*gauge)))
    for name, values in zip(("body", "heel", "leg", "foot"), columns):
        print(f"{name}: {values[0]} ({', '.join(str(v) for v in values[1:])})")
