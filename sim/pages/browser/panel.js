// One panel: axes and lines by the plotting library, our own cursor line.

const axisWidth = 62;
const rightAxisWidth = 52;

// Between whole numbers there is nothing to mark.
const wholeSteps = [1, 2, 5].flatMap((one) => [0, 1, 2, 3, 4, 5].map((power) => one * 10 ** power)).sort((a, b) => a - b);

function colourOf(name) {
  return getComputedStyle(document.documentElement).getPropertyValue("--" + name).trim();
}

class PanelView {
  constructor(element, panel, view) {
    this.element = element;
    this.panel = panel;
    this.view = view;
    this.values = [...element.querySelectorAll(".value")];
    this.drawing = element.querySelector(".drawing");
    this.u = new uPlot(this.options(), this.placeholders(), this.drawing);
    this.line = document.createElement("div");
    this.line.className = "cursor-line";
    this.line.hidden = true;
    this.u.over.appendChild(this.line);
    this.followPointer();
  }

  // The library only needs to know how far x reaches; the lines are drawn from our own points.
  placeholders() {
    const { from, to } = this.view.whole;
    return [[from, to], ...this.panel.series.map(() => [0, 0])];
  }

  options() {
    const ink = () => colourOf("faint-ink");
    const grid = { stroke: () => colourOf("line"), width: 1 };
    const ticks = { show: false };
    const font = "12px system-ui, 'Liberation Sans', Arial, sans-serif";
    const axis = { stroke: ink, grid, ticks, font };
    const words = this.panel.words;
    const left = { ...axis, scale: "y", size: axisWidth };
    if (words.length > 0) {
      left.splits = () => words.map((one) => one.value);
      left.values = (u, splits) =>
        splits.map((split) => words.find((one) => one.value === split).word.replace(" ", "\n"));
    }
    const bottom = { ...axis, size: 28, space: 60 };
    if (this.panel.series.every((series) => series.decimals === 0)) {
      left.incrs = wholeSteps;
    }
    if (this.view.plot.x.decimals === 0) {
      bottom.incrs = wholeSteps;
    }
    const axes = [bottom, left];
    if (this.hasRightAxis()) {
      axes.push({ ...axis, scale: "right", side: 1, size: rightAxisWidth, grid: { show: false } });
    }
    return {
      width: this.view.width,
      height: this.panel.height,
      padding: [8, this.hasRightAxis() ? 0 : 10, 0, 0],
      legend: { show: false },
      cursor: {
        x: false,
        y: false,
        points: { show: false },
        drag: { x: true, y: false, setScale: false },
        bind: { dblclick: () => () => this.view.show(this.view.whole) },
      },
      scales: {
        x: { time: false, range: () => [this.view.from, this.view.to] },
        y: { range: () => this.range("y") },
        right: { range: () => this.range("right") },
      },
      axes,
      series: [
        {},
        ...this.panel.series.map((series) => ({
          scale: series.scale,
          stroke: () => colourOf(series.colour),
          width: series.width,
          dash: dashPatterns[series.dash],
          paths: (u) => strokePath(u, series),
          points: { show: false },
        })),
      ],
      hooks: {
        draw: [(u) => this.panel.series.forEach((s) => drawSymbols(u, s, colourOf(s.colour)))],
        setSelect: [(u) => this.zoomToSelection(u)],
      },
    };
  }

  hasRightAxis() {
    return this.panel.series.some((series) => series.scale === "right");
  }

  range(scale) {
    if (scale === "y" && this.panel.words.length > 0) {
      const values = this.panel.words.map((one) => one.value);
      return [Math.min(...values) - 0.5, Math.max(...values) + 0.5];
    }
    const range = { low: Infinity, high: -Infinity };
    for (const series of this.panel.series) {
      if (series.scale === scale) {
        widen(range, series, this.view.from, this.view.to);
      }
    }
    if (scale === "y" && this.panel.floor !== null) {
      range.low = Math.min(range.low, this.panel.floor);
    }
    if (range.low > range.high) {
      return [0, 1];
    }
    const margin = 0.06 * (range.high - range.low) || 0.5;
    return [range.low - margin, range.high + margin];
  }

  zoomToSelection(u) {
    if (u.select.width > 5) {
      const from = u.posToVal(u.select.left, "x");
      const to = u.posToVal(u.select.left + u.select.width, "x");
      u.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
      this.view.show({ from, to });
    }
  }

  followPointer() {
    const follow = (event) => {
      const left = event.clientX - this.u.over.getBoundingClientRect().left;
      this.view.moveCursor(this.u.posToVal(left, "x"));
    };
    this.u.over.addEventListener("pointermove", follow);
    this.u.over.addEventListener("pointerdown", follow);
  }

  showView() {
    this.u.batch(() => {
      this.u.setScale("x", { min: this.view.from, max: this.view.to });
      for (const scale of ["y", "right"]) {
        const [min, max] = this.range(scale);
        this.u.setScale(scale, { min, max });
      }
    });
    this.showCursor();
  }

  showCursor() {
    const at = this.view.cursor;
    this.line.hidden = at === null || at < this.view.from || at > this.view.to;
    if (at === null) {
      return;
    }
    this.line.style.left = this.u.valToPos(at, "x") + "px";
    this.values.forEach((element, k) => {
      element.textContent = this.words(this.panel.series[k], at);
    });
  }

  words(series, at) {
    const value = valueAt(series, at);
    if (value === null) {
      return "\u2013";
    }
    const word = this.panel.words.find((one) => one.value === value);
    // Adding zero takes the sign off a rounded nothing.
    const number = (Number(value.toFixed(series.decimals)) + 0).toFixed(series.decimals);
    return word ? word.word : number + (series.unit === "" ? "" : "\u00a0" + series.unit);
  }

  resize(width) {
    this.u.setSize({ width, height: this.panel.height });
    this.showView();
  }

  redraw() {
    this.u.redraw(false, true);
  }
}
