import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { shadowStyles } from "../../../notebooks/element/shadowStyles.ts";

const own = (file: string) => readFileSync(new URL(`../../../notebooks/${file}`, import.meta.url), "utf8");
const compact = (css: string) => shadowStyles(css).replace(/\s+/g, "");

describe("shadowStyles(css)", () => {
  it("lets every property of the page be set from outside, but not on paper", () => {
    expect(compact(":root { --ink: #123; --serif: A, serif; margin: 0 }")).toContain(
      ".book{--ink:var(--datumbook-ink,#123);--serif:var(--datumbook-serif,A,serif);margin:0}",
    );
    expect(compact("@media print { :root { --ink: #000 } }")).toContain("@mediaprint{.book{--ink:#000}}");
  });

  it("gives what the page says of itself to the element, and leaves the rest as it is", () => {
    expect(compact("html { a: 1 } body { b: 2 } .sheet > p:not(.body) { c: 3 }")).toContain(".book{a:1}.book{b:2}.sheet>p:not(.body){c:3}");
  });

  it("takes the width of the host for that of the window, on the screen alone, as written and as minified", () => {
    const narrow = "@mediascreen{@containerdatumbook(max-width:760px){.a{b:1}}}";
    expect(compact("@media screen and (max-width: 760px) { .a { b: 1 } }")).toContain(narrow);
    expect(compact("@media screen and (width<=760px){.a{b:1}}")).toContain(narrow);
  });

  it("lets the attribute `scheme` settle light or dark", () => {
    const css = compact("@media (prefers-color-scheme: dark) { :root { --ink: #fff } }");
    const value = "{--ink:var(--datumbook-ink,#fff)}";
    expect(css).toContain(`@media(prefers-color-scheme:dark){:host(:not([scheme="light"])).book${value}}`);
    expect(css).toContain(`@mediascreen{:host([scheme="dark"]).book${value}}`);
  });

  it("leaves nothing of the project's own styles that only a page understands, and loses no rule", () => {
    for (const file of ["pages/sheet.css", "figures/figures.css"]) {
      const css = own(file).replace(/\/\*[\s\S]*?\*\//g, "");
      const shadow = shadowStyles(css);
      expect(shadow).not.toMatch(/:root|(^|[},\s])(html|body)\s*[{,]/);
      expect(shadow).not.toMatch(/@media screen and/);
      const selectors = [...css.matchAll(/\.[\w-]+(?=[^{}]*\{)/g)].map(([selector]) => selector);
      expect(new Set(selectors).size).toBeGreaterThan(30);
      expect(selectors.filter((selector) => !shadow.includes(selector))).toEqual([]);
      expect(shadow.split("{").length).toBe(shadow.split("}").length);
    }
  });
});
