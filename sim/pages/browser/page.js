// Begins when the page has been read: the plots, light and dark, and what paper needs.

const plots = [...document.querySelectorAll(".plot")].map((element) => new PlotView(element));
const root = document.documentElement;
const darkScheme = window.matchMedia("(prefers-color-scheme: dark)");

function redrawAll() {
  plots.forEach((plot) => plot.redraw());
}

function isDark() {
  return root.dataset.theme ? root.dataset.theme === "dark" : darkScheme.matches;
}

const themeButton = document.querySelector(".theme");
themeButton.hidden = false;
themeButton.addEventListener("click", () => {
  root.dataset.theme = isDark() ? "light" : "dark";
  redrawAll();
});
darkScheme.addEventListener("change", redrawAll);

// Paper is light, has no folds, and is narrower than most screens.
let before = null;
function toPaper() {
  if (before !== null) {
    return;
  }
  before = { theme: root.dataset.theme, folded: [...document.querySelectorAll("details:not([open])")] };
  root.dataset.theme = "light";
  root.dataset.printing = "yes";
  before.folded.forEach((fold) => (fold.open = true));
  plots.forEach((plot) => plot.fit());
  redrawAll();
}
function fromPaper() {
  if (before === null) {
    return;
  }
  before.folded.forEach((fold) => (fold.open = false));
  delete root.dataset.printing;
  if (before.theme) {
    root.dataset.theme = before.theme;
  } else {
    delete root.dataset.theme;
  }
  before = null;
  plots.forEach((plot) => plot.fit());
  redrawAll();
}
window.addEventListener("beforeprint", toPaper);
window.addEventListener("afterprint", fromPaper);
window.matchMedia("print").addEventListener("change", (event) => (event.matches ? toPaper() : fromPaper()));
root.dataset.ready = "yes";
