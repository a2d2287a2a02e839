"""Straight lines of a PDF page, read from its drawing operators, in mm from the lower left corner."""

from pypdf.generic import ContentStream

MM_PER_POINT = 25.4 / 72


def times(a, b):
    """Matrix a, then b (row vectors, as PDF has them)."""
    return (
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    )


def lines_of(page):
    """((x0, y0), (x1, y1)) of every straight stretch of every path, pictures within the page too."""
    return list(_lines(page, page.get_contents(), (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), page.pdf))


def _lines(holder, contents, matrix, pdf):
    stack, at, first = [], None, None
    if contents is None:
        return
    for operands, operator in ContentStream(contents, pdf).operations:
        match operator:
            case b"q":
                stack.append(matrix)
            case b"Q":
                matrix = stack.pop()
            case b"cm":
                matrix = times(tuple(map(float, operands)), matrix)
            case b"m":
                at = first = _point(operands, matrix)
            case b"l":
                to = _point(operands, matrix)
                yield at, to
                at = to
            case b"c":
                at = _point(operands[4:], matrix)
            case b"h":
                if at != first:
                    yield at, first
                at = first
            case b"Do":
                form = holder["/Resources"]["/XObject"][operands[0]].get_object()
                if form["/Subtype"] == "/Form":
                    own = tuple(map(float, form.get("/Matrix", (1, 0, 0, 1, 0, 0))))
                    yield from _lines(form, form, times(own, matrix), pdf)


def _point(operands, matrix):
    x, y = map(float, operands)
    a, b, c, d, e, f = matrix
    return ((a * x + c * y + e) * MM_PER_POINT, (b * x + d * y + f) * MM_PER_POINT)


def length(line):
    (x0, y0), (x1, y1) = line
    return ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5


def level(line):
    return abs(line[1][1] - line[0][1]) < 1e-3


def upright(line):
    return abs(line[1][0] - line[0][0]) < 1e-3
