// A plot: its panels share one cursor and one view.

function readSeries(series, x_decimals) {
  return {
    ...series,
    x: unpackNumbers(series.x, x_decimals),
    y: unpackNumbers(series.y, series.decimals),
  };
}

class PlotView {
  constructor(element) {
    this.element = element;
    this.plot = JSON.parse(element.querySelector("script").textContent);
    this.cursor = null;
    this.panels = [];
    this.spoken = element.querySelector(".spoken");
    this.at = element.querySelector(".at");
    this.box = element.querySelector(".panels");
    this.read();
    new ResizeObserver(() => this.fit()).observe(this.box);
    this.fit();
    this.listen();
  }

  read() {
    const { x } = this.plot;
    let from = Infinity;
    let to = -Infinity;
    for (const panel of this.plot.panels) {
      panel.series = panel.series.map((series) => readSeries(series, x.decimals));
      for (const series of panel.series) {
        for (const at of series.x) {
          from = Math.min(from, at);
          to = Math.max(to, at);
        }
      }
    }
    if (!(from < to)) {
      from = Number.isFinite(from) ? from - 0.5 : 0;
      to = from + 1;
    }
    // A little room beside points that stand alone.
    const margin = this.plot.panels.some((panel) => panel.series.some((one) => one.symbol !== "none"))
      ? 0.03 * (to - from)
      : 0;
    this.whole = { from: from - margin, to: to + margin };
    this.reach = { from, to };
    this.from = this.whole.from;
    this.to = this.whole.to;
  }

  // Also the first drawing: what is folded away has no width until it is opened.
  fit() {
    const width = document.documentElement.dataset.printing ? 660 : Math.floor(this.box.clientWidth);
    if (width === 0 || width === this.width) {
      return;
    }
    this.width = width;
    if (this.panels.length === 0) {
      this.element.querySelector(".controls").hidden = false;
      const figures = [...this.element.querySelectorAll(".panel")];
      this.panels = this.plot.panels.map((panel, k) => new PanelView(figures[k], panel, this));
      this.show(this.whole);
      return;
    }
    this.panels.forEach((panel) => panel.resize(width));
  }

  show({ from, to }) {
    const smallest = 5 * Math.pow(10, -this.plot.x.decimals);
    const length = Math.min(Math.max(to - from, smallest), this.whole.to - this.whole.from);
    const begin = Math.max(this.whole.from, Math.min(from, this.whole.to - length));
    this.from = begin;
    this.to = begin + length;
    this.panels.forEach((panel) => panel.showView());
  }

  zoom(factor) {
    const seen = this.cursor !== null && this.cursor >= this.from && this.cursor <= this.to;
    const centre = seen ? this.cursor : (this.from + this.to) / 2;
    this.show({ from: centre - (centre - this.from) * factor, to: centre + (this.to - centre) * factor });
  }

  moveCursor(at) {
    const scale = Math.pow(10, this.plot.x.decimals);
    const rounded = Math.round(at * scale) / scale;
    this.cursor = Math.min(Math.max(rounded, this.reach.from), this.reach.to);
    this.panels.forEach((panel) => panel.showCursor());
    this.at.textContent = this.where();
    clearTimeout(this.speaking);
    this.speaking = setTimeout(() => {
      this.spoken.textContent = this.everything();
    }, 300);
  }

  step(steps) {
    const smallest = Math.pow(10, -this.plot.x.decimals);
    const length = Math.max((this.to - this.from) / 200, smallest);
    const start = this.cursor === null ? (this.from + this.to) / 2 : this.cursor;
    this.moveCursor(start + steps * length);
    if (this.cursor < this.from || this.cursor > this.to) {
      const half = (this.to - this.from) / 2;
      this.show({ from: this.cursor - half, to: this.cursor + half });
    }
  }

  where() {
    const { name, unit, decimals } = this.plot.x;
    return name + " " + this.cursor.toFixed(decimals) + (unit === "" ? "" : "\u00a0" + unit);
  }

  everything() {
    const words = this.panels.flatMap((panel) =>
      panel.panel.series.map((series) => series.name + " " + panel.words(series, this.cursor)),
    );
    return this.where() + ": " + words.join(", ");
  }

  listen() {
    const actions = {
      whole: () => this.show(this.whole),
      stretch: () => this.plot.stretch && this.show(this.plot.stretch),
      in: () => this.zoom(0.5),
      out: () => this.zoom(2),
      left: () => this.step(-1),
      right: () => this.step(1),
      far_left: () => this.step(-20),
      far_right: () => this.step(20),
    };
    this.element.querySelector(".controls").addEventListener("click", (event) => {
      const button = event.target.closest("button");
      if (button) {
        actions[button.dataset.do]();
      }
    });
    const keys = { "+": "in", "=": "in", "-": "out", 0: "whole", Home: "whole", s: "stretch" };
    this.box.addEventListener("keydown", (event) => {
      const arrow = { ArrowLeft: "left", ArrowRight: "right" }[event.key];
      const action = arrow ? (event.shiftKey ? "far_" : "") + arrow : keys[event.key];
      if (action && !event.ctrlKey && !event.metaKey && !event.altKey) {
        event.preventDefault();
        actions[action]();
      }
    });
  }

  redraw() {
    this.panels.forEach((panel) => panel.redraw());
  }
}
