// Writes what every page holds into a source file. Run by the build:
//   node embed.mjs FOLDER_OF_THIS_FILE FOLDER_OF_UPLOT OUTPUT
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const [pages, library, output] = process.argv.slice(2);
const read = (folder, file) => readFileSync(join(folder, file), "utf8");

// In the order in which they need each other.
const ours = ["packed_numbers", "series", "strokes", "panel", "plot_view", "page"];

// The library's own first line only names its home, and a page names no address at all: its licence
// takes that line's place.
const licence = "/*\nThe plotting library uPlot. Its licence:\n\n" + read(library, "LICENSE") + "*/\n";
const uplot = read(library, "dist/uPlot.iife.min.js").replace(/^\/\*!.*?\*\/\s*/, "");
const script =
  licence + uplot + '\n(() => {\n"use strict";\n' +
  ours.map((name) => read(pages, `browser/${name}.js`)).join("\n") + "})();\n";
// Once for the system's choice, once for the reader's.
const dark = read(pages, "dark_colours.css").trim();
const style =
  read(library, "dist/uPlot.min.css") + "\n" +
  read(pages, "page.css").replaceAll("/* dark colours */", dark);
const template = read(pages, "page.html");

for (const text of [script, style]) {
  if (/<\/(script|style)|<!--|https?:\/\//i.test(text)) {
    throw new Error("what is embedded may not end its element early or name an address");
  }
}

const hash = (text) => "sha256-" + createHash("sha256").update(text).digest("base64");

// Some compilers take no literal that is longer than this.
const pieceLength = 8000;
function literal(text) {
  const letters = [...text];
  const pieces = [];
  for (let k = 0; k < letters.length; k += pieceLength) {
    pieces.push(`R"page(${letters.slice(k, k + pieceLength).join("")})page"`);
  }
  return pieces.join("\n");
}

const constants = {
  page_template: template,
  page_style: style,
  page_script: script,
  page_style_hash: hash(style),
  page_script_hash: hash(script),
};
const functions = Object.entries(constants).map(
  ([name, text]) => `std::string_view ${name}() {\n    return ${literal(text)};\n}\n`,
);
writeFileSync(
  output,
  '#include "sim/pages/page_assets.hpp"\n\nnamespace sim {\n\n' + functions.join("\n") + "\n}  // namespace sim\n",
);
