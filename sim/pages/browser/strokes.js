// Series and symbols as strokes on a canvas.

const dashPatterns = { solid: [], dashed: [7, 4], dotted: [2, 3] };

// Within one column of pixels only first, lowest, highest and last can be told apart.
class Thinned {
  constructor(path) {
    this.path = path;
    this.column = null;
  }
  add(x, y) {
    const column = Math.round(x);
    if (this.column !== null && column === this.column.at) {
      this.column.low = Math.min(this.column.low, y);
      this.column.high = Math.max(this.column.high, y);
      this.column.last = y;
      return;
    }
    this.flush();
    this.column = { at: column, x, first: y, low: y, high: y, last: y };
  }
  flush() {
    const column = this.column;
    if (column !== null) {
      for (const y of [column.first, column.low, column.high, column.last]) {
        this.path.lineTo(column.x, y);
      }
    }
  }
}

function strokePath(u, series) {
  const path = new Path2D();
  const clip = new Path2D();
  clip.rect(u.bbox.left, u.bbox.top, u.bbox.width, u.bbox.height);
  if (!series.line || series.x.length === 0) {
    return { stroke: path, clip };
  }
  const [first, last] = drawnRange(series, u.scales.x.min, u.scales.x.max);
  const toX = (k) => u.valToPos(series.x[k], "x", true);
  const toY = (k) => u.valToPos(series.y[k], series.scale, true);
  path.moveTo(toX(first), toY(first));
  if (series.drawn === "path") {
    for (let k = first + 1; k <= last; ++k) {
      path.lineTo(toX(k), toY(k));
    }
  } else if (series.drawn === "steps") {
    for (let k = first + 1; k <= last; ++k) {
      path.lineTo(toX(k), toY(k - 1));
      path.lineTo(toX(k), toY(k));
    }
  } else {
    const thinned = new Thinned(path);
    for (let k = first; k <= last; ++k) {
      thinned.add(toX(k), toY(k));
    }
    thinned.flush();
  }
  return { stroke: path, clip };
}

function drawSymbol(canvas, symbol, x, y, size) {
  canvas.beginPath();
  if (symbol === "circle") {
    canvas.arc(x, y, size, 0, 2 * Math.PI);
  } else if (symbol === "square") {
    canvas.rect(x - size, y - size, 2 * size, 2 * size);
  } else {
    canvas.moveTo(x - size, y - size);
    canvas.lineTo(x + size, y + size);
    canvas.moveTo(x - size, y + size);
    canvas.lineTo(x + size, y - size);
  }
  canvas.stroke();
}

function drawSymbols(u, series, colour) {
  if (series.symbol === "none" || series.x.length === 0) {
    return;
  }
  const canvas = u.ctx;
  const ratio = window.devicePixelRatio;
  canvas.save();
  canvas.strokeStyle = colour;
  canvas.lineWidth = 2 * ratio;
  canvas.setLineDash([]);
  const [first, last] = drawnRange(series, u.scales.x.min, u.scales.x.max);
  for (let k = first; k <= last; ++k) {
    const x = u.valToPos(series.x[k], "x", true);
    const y = u.valToPos(series.y[k], series.scale, true);
    if (x >= u.bbox.left - 1 && x <= u.bbox.left + u.bbox.width + 1) {
      drawSymbol(canvas, series.symbol, x, y, 4 * ratio);
    }
  }
  canvas.restore();
}
