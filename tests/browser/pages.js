// Opens every page of a folder in Debian's Chromium and checks what only a browser can tell. Prints a line a page; exits
// with 1 when something is wrong.
import fs from "node:fs";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const folder = process.argv[2];
const axe = fs.readFileSync(createRequire(import.meta.url).resolve("axe-core"), "utf8");
const widths = { phone: [390, 844], tablet: [820, 1180], desktop: [1280, 800] };
let complaints = 0;

const complain = (name, what) => {
  complaints += 1;
  console.log(`${name}: ${what}`);
};

/// A page that says everything the browser complains of, and every request but the one for the file itself.
const opened = async (browser, name, options) => {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.on("console", message => complain(name, `console: ${message.text()}`));
  page.on("pageerror", error => complain(name, `error: ${error.message}`));
  page.on("request", request => { if (!request.url().endsWith(name)) complain(name, `asks for ${request.url()}`); });
  await page.goto(`file://${folder}/${name}`);
  return page;
};

const check_width = async (page, name, what) => {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  if (wide > 0) complain(name, `${what}: wider than the screen by ${wide} pixels`);
};

/// Contrast and the other rules, on the screen as it is.
const check_rules = async (page, name, what) => {
  await page.evaluate(axe);
  const found = await page.evaluate(() => axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"] }));
  if (found.passes.length < 15) complain(name, `${what}: only ${found.passes.length} rules were tried`);
  for (const rule of found.violations)
    for (const node of rule.nodes) complain(name, `${what}: ${rule.id}: ${node.html.slice(0, 100)} ${node.failureSummary}`);
  return found.passes.length;
};

/// No words are drawn in the very colour of what they stand on, which the rules above do not see in pictures.
const check_words_in_boxes = async (page, name, what) => {
  const lost = await page.evaluate(() => {
    const fill = element => getComputedStyle(element).fill;
    return [...document.querySelectorAll(".picture g")].flatMap(group => {
      const box = group.querySelector(".outline, .torn-outline");
      return box ? [...group.querySelectorAll("text:not(.t-number)")].filter(text => fill(text) === fill(box)) : [];
    }).map(text => text.textContent);
  });
  if (lost.length > 0) complain(name, `${what}: cannot be seen: ${lost.join("; ")}`);
};

/// Everything that there is to read is on the screen without script too.
const check_without_script = async (browser, name, with_script) => {
  const page = await opened(browser, name, { javaScriptEnabled: false });
  const text = await page.innerText("main");
  const lost = with_script.split("\n").filter(line => line !== "Fold all" && !text.includes(line));
  if (lost.length > 0) complain(name, `without script there is no ${lost[0]}`);
  await page.context().close();
};

const check_pointing = async (page, name) => {
  const link = page.locator("main a[href^='#']").first();
  if (await link.count() === 0) return "nothing to point at";
  const place = (await link.getAttribute("href")).slice(1);
  const lit = () => page.locator(`.sheet g.lit#${place}`).count();
  if (await lit() !== 0) complain(name, "something is lit before it is pointed at");
  await link.hover();
  if (await lit() !== 1) complain(name, `pointing at ${place} does not light it up`);
  const seen = await page.evaluate(id => {
    const at = document.getElementById(id).getBoundingClientRect(), sheet = document.querySelector(".sheet").getBoundingClientRect();
    return at.left >= sheet.left - 1 && at.right <= sheet.right + 1 && at.top >= sheet.top - 1 && at.bottom <= sheet.bottom + 1;
  }, place);
  if (!seen) complain(name, `${place} is not in view when pointed at`);
  await page.mouse.move(0, 0);
  if (await lit() !== 0) complain(name, "it stays lit");
  await page.locator(`.sheet g#${place} text`).first().hover();
  if (await page.locator("main li.lit, main tr.lit").count() === 0) complain(name, "pointing at the place lights no line up");
  return place;
};

const check_folding = async page => {
  const open = () => page.locator("details.part[open]").count();
  const all = await page.locator("details.part").count();
  const counts = [await open()];
  for (let i = 0; i < 2; ++i) {
    await page.click("#fold");
    counts.push(await open());
  }
  await page.locator("details.part > summary").first().click();
  counts.push(await open());
  return JSON.stringify(counts) === JSON.stringify([all, 0, all, all - 1]) ? "" : `folding went ${counts} of ${all}`;
};

/// How many sheets of paper it takes.
const printed = async (page, name, options) => {
  const pdf = (await page.pdf({ ...options, preferCSSPageSize: true, path: `${folder}/${name}.pdf` })).toString("latin1");
  return (pdf.match(/\/Type\s*\/Page\b/g) || []).length;
};

/// Two sheets of A4 at the most, and what is folded on the screen is on paper.
const check_paper = async (page, name) => {
  const sheets = await printed(page, name, { format: "A4" });
  if (sheets < 1 || sheets > 2) complain(name, `${sheets} sheets of paper`);
  return sheets;
};

const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
for (const name of fs.readdirSync(folder).filter(file => file.endsWith(".html")).sort()) {
  let rules = 0, pointed = "", sheets = 0;
  for (const colorScheme of ["light", "dark"]) {
    for (const [what, [width, height]] of Object.entries(widths)) {
      const page = await opened(browser, name, { viewport: { width, height }, colorScheme });
      await check_width(page, name, what);
      await page.screenshot({ path: `${folder}/${name}-${what}-${colorScheme}.png`, fullPage: true });
      rules = await check_rules(page, name, `${what}, ${colorScheme}`);
      await check_words_in_boxes(page, name, `${what}, ${colorScheme}`);
      await page.context().close();
    }
  }
  const page = await opened(browser, name, { viewport: { width: 1280, height: 800 } });
  await check_without_script(browser, name, await page.innerText("main"));
  pointed = await check_pointing(page, name);
  const folded = await check_folding(page);
  if (folded !== "") complain(name, folded);
  sheets = await check_paper(page, name);
  await page.context().close();
  console.log(`${name}: ${rules} rules passed at 3 widths, light and dark; pointed at: ${pointed}; sheets of paper: ${sheets}`);
}
for (const name of fs.readdirSync(folder).filter(file => file.endsWith(".svg")).sort()) {
  const page = await opened(browser, name, {});
  const [width, height] = await page.evaluate(() => ["width", "height"].map(side => Number(document.documentElement.getAttribute(side))));
  const sheets = await printed(page, name, { format: "Letter" }), wanted = Math.ceil(height / (width * 297 / 210) - 1e-3);
  if (sheets !== wanted) complain(name, `${sheets} sheets of paper instead of ${wanted}`);
  await page.context().close();
  console.log(`${name}: sheets of paper: ${sheets}`);
}
await browser.close();
process.exit(complaints === 0 ? 0 : 1);
