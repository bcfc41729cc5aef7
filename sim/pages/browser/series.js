// What a series says between its points, and how far it reaches.

// Index of the last x that is not beyond `at`; -1 if there is none. Only for x that never falls.
function lastNotBeyond(x, at) {
  let low = 0;
  let high = x.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (x[middle] <= at) {
      low = middle + 1;
    } else {
      high = middle;
    }
  }
  return low - 1;
}

function between(x0, y0, x1, y1, at) {
  return x1 === x0 ? y1 : y0 + ((y1 - y0) * (at - x0)) / (x1 - x0);
}

// Of the series as it is drawn; null where it is not. Of a path: where it first comes by.
function valueAt(series, at) {
  const { x, y } = series;
  if (series.drawn === "path") {
    for (let k = 1; k < x.length; ++k) {
      if ((x[k - 1] - at) * (x[k] - at) <= 0) {
        return between(x[k - 1], y[k - 1], x[k], y[k], at);
      }
    }
    return null;
  }
  const k = lastNotBeyond(x, at);
  if (k < 0 || at > x[x.length - 1]) {
    return null;
  }
  if (x[k] === at || series.drawn === "steps") {
    return y[k];
  }
  return series.line ? between(x[k], y[k], x[k + 1], y[k + 1], at) : null;
}

// First and last index to draw so that the line reaches both edges of the view.
function drawnRange(series, from, to) {
  if (series.drawn === "path") {
    return [0, series.x.length - 1];
  }
  const first = Math.max(lastNotBeyond(series.x, from), 0);
  const last = Math.min(lastNotBeyond(series.x, to) + 1, series.x.length - 1);
  return [first, last];
}

// Widens `range` by what is seen of the series.
function widen(range, series, from, to) {
  const [first, last] = drawnRange(series, from, to);
  for (let k = first; k <= last; ++k) {
    range.low = Math.min(range.low, series.y[k]);
    range.high = Math.max(range.high, series.y[k]);
  }
}
