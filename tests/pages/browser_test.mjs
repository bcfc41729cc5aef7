// The pages in a real browser, without a window: node --test browser_test.mjs, with
//   RUNUP_PROGRAM       the built program          RUNUP_SOURCE_FOLDER  this repository
//   RUNUP_NODE_MODULES  where puppeteer-core is    RUNUP_BROWSER        the browser
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";

const program = process.env.RUNUP_PROGRAM;
const source = process.env.RUNUP_SOURCE_FOLDER;
const puppeteer = createRequire(join(process.env.RUNUP_NODE_MODULES, "package.json"))("puppeteer-core");

const mostBytes = 5e6;
const mostMilliseconds = 2000;
const lessons = ["small_inverter", "locked_rotor", "short_rest", "reverse_scroll", "weak_capacitor", "learning"];

// Direct starts on four supplies, of which some come up and some do not.
const fewStarts = `
[suite]
title = "A few <starts>"
seed = 3
[[spread]]
group = "weather"
input = "line_voltage_factor"
kind = "uniform"
lowest = 0.8
highest = 1.1
[[expectation]]
name = "comes up"
outcome = "running"
[[block]]
name = "direct"
compressors = ["cold_room_230v_50hz", "display_case_230v_50hz", "heat_pump_scroll_230v_50hz"]
supplies = ["house_grid_230v_50hz", "hut_inverter_3kva_230v_50hz", "generator_5kva_230v_50hz", "rural_grid_230v_50hz"]
settings = "directly"
draws = 2
spreads = ["weather"]
expect = "comes up"
[block.run]
duration_s = 1
`;

let folder;
let browser;
const file = (name) => join(folder, name);
const scenario = (name) => join(source, "sim/scenarios", name + ".toml");

// Exit code 1 only says that a start did not end as expected.
function runup(...words) {
  try {
    execFileSync(program, words, { stdio: ["ignore", "ignore", "pipe"] });
  } catch (error) {
    assert.equal(error.status, 1, String(error.stderr));
  }
}

before(async () => {
  assert.ok(existsSync(process.env.RUNUP_BROWSER), "no browser; run scripts/install_packages test");
  folder = mkdtempSync(join(tmpdir(), "runup-pages-"));
  const limited = readFileSync(scenario("hut_inverter"), "utf8");
  writeFileSync(file("long.toml"), limited.replace("duration_s = 3", "duration_s = 20"));
  const odd = limited.replace(/title = .*/, 'title = "<script>window.stolen = 1</script>"');
  writeFileSync(file("odd.toml"), odd);
  runup("start", scenario("hut_inverter"), "--also-direct", "--page", file("start.html"));
  runup("start", file("long.toml"), "--also-direct", "--page", file("long.html"));
  runup("start", file("odd.toml"), "--page", file("odd.html"));
  runup("repeat", scenario("dairy_50hz"), "--starts", "4", "--page", file("repeat.html"));
  runup("repeat", scenario("bakery_short_rest"), "--starts", "3", "--page", file("failed.html"));
  runup("lesson", file("lessons"));
  writeFileSync(file("few.toml"), fewStarts);
  runup("regress", file("few.toml"), "--results", file("few.results"), "--page", file("campaign.html"));
  runup("compare", file("few.results"), file("few.results"), "--page", file("comparison.html"));
  browser = await puppeteer.launch({
    executablePath: process.env.RUNUP_BROWSER,
    // The tests may run as root, where the browser refuses to start with its sandbox.
    args: ["--no-sandbox", "--disable-dev-shm-usage"],
    headless: true,
    protocolTimeout: 30000,
  });
});

after(async () => {
  await browser?.close();
  if (folder) {
    rmSync(folder, { recursive: true });
  }
});

// Opens a page and keeps what it asked for and complained of.
async function open(name, { width = 1280, scheme = "light", scripts = true } = {}) {
  const page = await browser.newPage();
  page.requests = [];
  page.complaints = [];
  page.on("request", (request) => page.requests.push(request.url()));
  page.on("console", (message) => page.complaints.push(message.text()));
  page.on("pageerror", (error) => page.complaints.push(error.message));
  page.on("dialog", (dialog) => page.complaints.push("dialog: " + dialog.message()));
  await page.setViewport({ width, height: 900 });
  await page.setJavaScriptEnabled(scripts);
  await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
  const begun = performance.now();
  await page.goto("file://" + file(name), { waitUntil: "load" });
  await drawn(page);
  page.milliseconds = performance.now() - begun;
  return page;
}

const drawn = (page) =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

// Of every canvas: how many pixels are not transparent, and their bytes in one number.
const canvases = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll("canvas")].map((canvas) => {
      const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
      let inked = 0;
      let digest = 0;
      for (let k = 0; k < data.length; k += 4) {
        inked += data[k + 3] > 0 ? 1 : 0;
        digest = (digest * 31 + data[k] + 3 * data[k + 1] + 7 * data[k + 2] + 11 * data[k + 3]) | 0;
      }
      return { inked, digest };
    }),
  );

// Of every series: how many pixels of its panel have its colour, whatever they cover of it.
const inkOfSeries = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll(".panel")].flatMap((panel) => {
      const canvas = panel.querySelector("canvas");
      const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
      return [...panel.querySelectorAll(".legend li")].map((entry) => {
        const colour = getComputedStyle(entry.querySelector("svg")).stroke.match(/\d+/g).map(Number);
        let inked = 0;
        for (let k = 0; k < data.length; k += 4) {
          const apart = Math.hypot(data[k] - colour[0], data[k + 1] - colour[1], data[k + 2] - colour[2]);
          inked += data[k + 3] > 80 && apart < 40 ? 1 : 0;
        }
        return { name: panel.querySelector("b").textContent + ": " + entry.textContent.trim(), inked };
      });
    }),
  );

// Of one plot: where each panel shows the cursor, what stands beside it, and what is spoken.
const plotState = (page, k) =>
  page.evaluate((index) => {
    const plot = document.querySelectorAll(".plot")[index];
    return {
      lines: [...plot.querySelectorAll(".cursor-line")].map((line) => [line.hidden, line.style.left]),
      values: [...plot.querySelectorAll(".value")].map((value) => value.textContent),
      at: plot.querySelector(".at").textContent,
      spoken: plot.querySelector(".spoken").textContent,
      live: plot.querySelector(".spoken").getAttribute("aria-live"),
    };
  }, k);

const overflow = (page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

const unfold = (page) =>
  page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));

const everyPage = () => ["start.html", "long.html", "odd.html", "repeat.html", "failed.html",
  "campaign.html", "comparison.html",
  "lessons/index.html", ...lessons.map((name) => `lessons/${name}.html`)];

test("every page opens without a complaint and asks for nothing but itself", async () => {
  for (const name of everyPage()) {
    const page = await open(name);
    await unfold(page);
    await drawn(page);
    assert.deepEqual(page.complaints, [], name);
    assert.deepEqual(page.requests, ["file://" + file(name)], name);
    await page.close();
  }
});

test("every series is drawn, those behind an answer too", async () => {
  const withoutPlots = ["lessons/index.html", "campaign.html", "comparison.html"];
  for (const name of everyPage().filter((one) => !withoutPlots.includes(one))) {
    const page = await open(name);
    await unfold(page);
    await drawn(page);
    await drawn(page);
    const series = await inkOfSeries(page);
    assert.ok(series.length >= 4, name);
    series.forEach((one) => assert.ok(one.inked > 20, `${name}, ${one.name}: ${one.inked} pixels`));
    await page.close();
  }
});

test("the arrow keys move one cursor through all panels of a plot", async () => {
  const page = await open("start.html");
  await page.evaluate(() => document.querySelectorAll(".panels")[1].focus());
  await page.keyboard.press("ArrowRight");
  const first = await plotState(page, 1);
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("ArrowLeft");
  const second = await plotState(page, 1);
  assert.ok(first.lines.length >= 6);
  for (const state of [first, second]) {
    state.lines.forEach(([hidden, left]) => {
      assert.equal(hidden, false);
      assert.equal(left, state.lines[0][1]);
    });
  }
  assert.ok(parseFloat(second.lines[0][1]) < parseFloat(first.lines[0][1]));
  assert.notDeepEqual(second.values, first.values);
  assert.match(second.at, /^time \d+\.\d{4}\ss$/);
  // Other plots keep theirs.
  assert.ok((await plotState(page, 0)).lines.every(([hidden]) => hidden));
  await page.close();
});

test("the values at the cursor are spoken, politely", async () => {
  const page = await open("start.html");
  await page.evaluate(() => document.querySelectorAll(".panels")[1].focus());
  await page.keyboard.press("ArrowRight");
  await page.waitForFunction(() => document.querySelectorAll(".spoken")[1].textContent !== "");
  const state = await plotState(page, 1);
  assert.equal(state.live, "polite");
  assert.match(state.spoken, /^time [\d.]+\ss: voltage -?[\d.]+\sV, .* rotor \d+\sr\/min/);
  await page.close();
});

test("the mouse moves the same cursor, and the readout is the run's own speed", async () => {
  const page = await open("start.html");
  const over = (await page.$$(".plot"))[1];
  const panel = (await over.$$(".u-over"))[0];
  await panel.scrollIntoView();
  const box = await panel.boundingBox();
  await page.mouse.move(box.x + 0.999 * box.width, box.y + box.height / 2);
  const state = await plotState(page, 1);
  state.lines.forEach(([hidden, left]) => {
    assert.equal(hidden, false);
    assert.equal(left, state.lines[0][1]);
  });
  const json = JSON.parse(
    execFileSync(program, ["start", scenario("hut_inverter"), "--json", "-"], { encoding: "utf8" }),
  );
  const speed = state.values.find((value) => value.endsWith("r/min"));
  assert.ok(Math.abs(parseFloat(speed) - json.final_speed_rpm) < 5, `${speed}, ${json.final_speed_rpm}`);
  await page.close();
});

test("a finger moves the cursor, too", async () => {
  const page = await open("start.html", { width: 390 });
  const panel = (await (await page.$$(".plot"))[1].$$(".u-over"))[1];
  await panel.scrollIntoView();
  const box = await panel.boundingBox();
  await page.touchscreen.tap(box.x + box.width / 2, box.y + 40);
  const state = await plotState(page, 1);
  state.lines.forEach(([hidden, left]) => {
    assert.equal(hidden, false);
    assert.ok(Math.abs(parseFloat(left) - box.width / 2) < 2, left);
  });
  await page.close();
});

test("zoom by key, by button and by dragging is shared by all panels", async () => {
  const page = await open("start.html");
  const plot = (await page.$$(".plot"))[1];
  const count = (await plot.$$(".panel")).length;
  const offset = (await (await page.$$(".plot"))[0].$$(".panel")).length;
  const digests = async () => (await canvases(page)).slice(offset, offset + count).map((one) => one.digest);
  const allDiffer = (one, other, how) =>
    one.forEach((digest, k) => assert.notEqual(digest, other[k], `${how}, panel ${k}`));
  await page.evaluate(() => document.querySelectorAll(".panels")[1].focus());
  const whole = await digests();
  for (let k = 0; k < 5; ++k) {
    await page.keyboard.press("+");
  }
  await drawn(page);
  const zoomed = await digests();
  allDiffer(zoomed, whole, "key");
  await page.keyboard.press("0");
  await drawn(page);
  assert.deepEqual(await digests(), whole);

  await (await plot.$("[data-do=stretch]")).click();
  await drawn(page);
  allDiffer(await digests(), whole, "button");
  await (await plot.$("[data-do=whole]")).click();
  await drawn(page);
  assert.deepEqual(await digests(), whole);

  const panel = (await plot.$$(".u-over"))[2];
  await panel.scrollIntoView();
  const box = await panel.boundingBox();
  await page.mouse.move(box.x + 50, box.y + 60);
  await page.mouse.down();
  await page.mouse.move(box.x + 250, box.y + 60, { steps: 5 });
  await page.mouse.up();
  await drawn(page);
  allDiffer(await digests(), whole, "dragging");
  // The cursor stands at the right edge of what was chosen, in every panel.
  const state = await plotState(page, 1);
  state.lines.forEach(([, left]) => assert.ok(Math.abs(parseFloat(left) - box.width) < 2, left));
  await page.close();
});

test("twenty seconds at tick rate open in under 2 s and stay under 5 MB", async (context) => {
  const bytes = statSync(file("long.html")).size;
  // The first page of a browser pays for the browser.
  await (await open("odd.html")).close();
  const page = await open("long.html");
  context.diagnostic(`${bytes} bytes, opened and drawn in ${page.milliseconds.toFixed(0)} ms`);
  assert.ok(bytes < mostBytes, `${bytes} bytes`);
  assert.ok(page.milliseconds < mostMilliseconds, `${page.milliseconds} ms`);
  assert.ok((await canvases(page)).every(({ inked }) => inked > 500));
  await page.close();
});

test("on a phone nothing reaches over the edge", async () => {
  for (const name of everyPage()) {
    const page = await open(name, { width: 390 });
    await unfold(page);
    await drawn(page);
    await drawn(page);
    assert.ok((await overflow(page)) <= 0, name);
    const widest = await page.$$eval("canvas", (all) =>
      Math.max(0, ...all.map((one) => one.getBoundingClientRect().right)),
    );
    assert.ok(widest <= 390, `${name}: ${widest}`);
    await page.close();
  }
});

const paper = (page) => page.evaluate(() => getComputedStyle(document.body).backgroundColor);

test("dark and light follow the system, and the button turns them round", async () => {
  const dark = await open("start.html", { scheme: "dark" });
  assert.equal(await paper(dark), "rgb(20, 24, 28)");
  const inDark = await canvases(dark);
  await dark.close();
  const light = await open("start.html");
  assert.equal(await paper(light), "rgb(255, 255, 255)");
  const inLight = await canvases(light);
  inLight.forEach(({ digest }, k) => assert.notEqual(digest, inDark[k].digest));
  await light.click(".theme");
  await drawn(light);
  assert.equal(await paper(light), "rgb(20, 24, 28)");
  assert.deepEqual(await canvases(light), inDark);
  await light.close();
});

test("on paper it is light, without controls, and the answer is open", async () => {
  const page = await open("lessons/small_inverter.html", { scheme: "dark" });
  const hidden = () => page.$$eval("details:not([open])", (all) => all.length);
  assert.ok((await hidden()) > 0);
  await page.emulateMediaType("print");
  await page.waitForFunction(() => document.documentElement.dataset.printing === "yes");
  await drawn(page);
  assert.equal(await paper(page), "rgb(255, 255, 255)");
  assert.equal(await hidden(), 0);
  const shown = await page.$$eval(".controls, .theme, .cursor-line", (all) =>
    all.filter((one) => getComputedStyle(one).display !== "none").length,
  );
  assert.equal(shown, 0);
  const pictures = await canvases(page);
  assert.ok(pictures.length >= 8 && pictures.every(({ inked }) => inked > 500));
  await page.emulateMediaType("screen");
  await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: "dark" }]);
  await page.waitForFunction(() => document.documentElement.dataset.printing === undefined);
  assert.equal(await paper(page), "rgb(20, 24, 28)");
  assert.ok((await hidden()) > 0);
  await page.close();
});

test("without scripts text, tables and the folded answer still work", async () => {
  const page = await browser.newPage();
  await page.setJavaScriptEnabled(false);
  await page.goto("file://" + file("lessons/short_rest.html"), { waitUntil: "load" });
  const text = () => page.$eval("details", (one) => one.innerText);
  const folded = await text();
  await page.click("summary");
  const opened = await text();
  assert.ok(!folded.includes("bar on the suction side"), folded);
  assert.ok(opened.includes("bar on the suction side"), opened);
  assert.ok(opened.includes("Without scripts"), opened);
  await page.close();
});

test("markup in a scenario's title is shown and not carried out", async () => {
  const page = await open("odd.html");
  assert.equal(await page.$eval("h1", (one) => one.textContent), "<script>window.stolen = 1</script>");
  assert.equal(await page.title(), "<script>window.stolen = 1</script>");
  assert.equal(await page.evaluate(() => window.stolen), undefined);
  await page.close();
});

test("the policy lets no other script run, whoever put it there", async () => {
  const page = await open("start.html");
  await page.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "window.stolen = 1";
    document.body.appendChild(script);
    const picture = document.createElement("img");
    picture.src = "http://127.0.0.1:9/picture.png";
    document.body.appendChild(picture);
  });
  assert.equal(await page.evaluate(() => window.stolen), undefined);
  await page.waitForFunction(() => true);
  assert.ok(page.complaints.some((words) => words.includes("Content Security Policy")));
  await page.close();
});

test("a start that failed has a word and a symbol of its own", async () => {
  const page = await open("failed.html");
  const legend = await page.$eval(".legend", (one) => one.innerText);
  assert.match(legend, /does not come up/);
  assert.match(await page.$eval(".notice", (one) => one.innerText), /Did not come up: start 1\./);
  await page.close();
});

// Relative luminance and contrast as the Web Content Accessibility Guidelines 2.1 define them.
const contrasts = (page, selector) =>
  page.$$eval(selector, (all) =>
    all.map((one) => {
      const style = getComputedStyle(one);
      const luminance = (words) => {
        const [red, green, blue] = words.match(/[\d.]+/g).map((part) => {
          const share = Number(part) / 255;
          return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
        });
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
      };
      const [ink, ground] = [luminance(style.color), luminance(style.backgroundColor)];
      return { step: one.className, ground, contrast: (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05) };
    }),
  );

test("the steps of a heat map differ in lightness alone, and their numbers can be read", async () => {
  for (const scheme of ["light", "dark"]) {
    const page = await open("campaign.html", { scheme });
    const steps = await contrasts(page, ".heat-scale [class^=heat-]");
    assert.ok(steps.length >= 7);
    steps.forEach(({ step, contrast }) => assert.ok(contrast >= 4.5, `${scheme} ${step}: ${contrast}`));
    const rising = steps.slice(0, 7).map(({ ground }) => ground);
    for (let k = 1; k < rising.length; ++k) {
      const darker = rising[k - 1] > rising[k];
      assert.equal(darker, scheme === "light", `${scheme}, step ${k}`);
    }
    await page.close();
  }
});

test("a heat map wider than the phone is scrolled by the keyboard, and its names stay", async () => {
  const page = await open("campaign.html", { width: 390 });
  const state = () =>
    page.$eval(".heat", (one) => ({
      scrolled: one.scrollLeft,
      hidden: one.scrollWidth - one.clientWidth,
      name: one.querySelector("tbody th").getBoundingClientRect().left,
      cell: one.querySelector("tbody td").getBoundingClientRect().left,
    }));
  const before = await state();
  assert.ok(before.hidden > 0);
  await page.$eval(".heat", (one) => one.focus());
  for (let k = 0; k < 5; ++k) {
    await page.keyboard.press("ArrowRight");
  }
  await page.waitForFunction(() => document.querySelector(".heat").scrollLeft > 0);
  const after = await state();
  assert.equal(after.name, before.name);
  assert.ok(after.cell < before.cell);
  await page.close();
});

test("every bar of a histogram has ink, with and without scripts", async () => {
  for (const scripts of [true, false]) {
    const page = await browser.newPage();
    await page.setJavaScriptEnabled(scripts);
    await page.goto("file://" + file("campaign.html"), { waitUntil: "load" });
    const bars = await page.$$eval(".histogram rect", (all) =>
      all.map((one) => ({ area: one.getBBox().width * one.getBBox().height, fill: getComputedStyle(one).fill })),
    );
    assert.ok(bars.length > 20);
    bars.forEach(({ area, fill }) => assert.ok(area > 0 && fill !== "none"));
    await page.close();
  }
});
