import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type OpenBrowser, openBrowser, violationsIn } from "../support/openBrowser.ts";

let browser: OpenBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const plate = readFileSync(new URL("../acceptance/plateWithSawnEnd.json", import.meta.url));

describe("a shift change", () => {
  it("a record is taken over, three checks are typed, one of them wrong by a radius, and that explanation comes first; the outcome is whole at 1440 px, light, and 390 px, dark", async () => {
    const { page, errors } = await browser.openSheet({ file: plate });
    const section = page.locator("#checks");
    await section.scrollIntoViewIfNeeded();
    await section.getByRole("button", { name: "foresee the faces that the zero does not rest on" }).click();
    await section.getByRole("button", { name: "and those that it rests on" }).click();
    const readings = (at: number) => section.locator('[data-table="checks"] tr[data-row] [data-column="readings"] [data-cell]').nth(at);
    // The faces that the corner on C does not touch come first: right and back, then left, front and top.
    await expect.poll(() => section.locator('[data-table="checks"] tr[data-row]').count()).toBe(5);
    // By hand, R = F - a · r with the scenario's faces and r = 2.998: right -286.743, back -168.276, left -412.611. The back one is typed with the radius in it.
    for (const [at, text] of [
      [0, "-286.744"],
      [1, "-171.274"],
      [2, "-412.612"],
    ] as const) {
      await readings(at).click();
      await page.keyboard.type(text);
      await page.keyboard.press("Enter");
    }
    await expect.poll(() => section.locator('[data-table="checks"]').textContent()).toContain("disagrees");
    await section.locator(".checks .plain").scrollIntoViewIfNeeded();
    const first = section.locator(".checks .plain tbody tr").first();
    await expect.poll(() => first.textContent()).toContain('check "back" already carries the radius of "edge finder"');
    await expect
      .poll(() => section.locator(".checks .findings").textContent())
      .toContain("The evidence disagrees by more than doubt explains");
    expect(await section.locator(".checks .findings").textContent()).toContain("To decide, touch");
    const looks = [
      [1440, "light"],
      [390, "dark"],
    ] as const;
    expect(await violationsIn(page, "#checks", looks)).toEqual([]);
    expect(errors).toEqual([]);
  });

  it("a zero older than an event is unverified until checks after it agree along every axis", async () => {
    const job = JSON.parse(plate.toString()) as Record<string, unknown>;
    job["events"] = [{ id: "bump", kind: "crash", when: "2026-03-14 10:00" }];
    job["checks"] = [
      { id: "right", element: "right", travelling: "-X", tool: "edge finder", readings: "-286.744", when: "2026-03-14 09:00" },
      { id: "back", element: "back", travelling: "-Y", tool: "edge finder", readings: "-168.276", when: "2026-03-14 11:00" },
      {
        id: "top",
        element: "top",
        travelling: "-Z",
        tool: "reference tool",
        spacer: "block",
        readings: "-244.788",
        when: "2026-03-14 11:00",
      },
    ];
    const { page } = await browser.openSheet({ file: Buffer.from(JSON.stringify(job)) });
    const events = page.locator('[data-table="events"]');
    await expect.poll(() => events.textContent()).toContain("unverified");
    expect(await events.textContent()).toContain("Y and Z have been checked, X has not");
    const when = page.locator('[data-table="checks"] [data-column="when"] [data-cell]').first();
    await when.click();
    await page.keyboard.type("2026-03-14 11:00");
    await page.keyboard.press("Enter");
    await expect.poll(() => events.textContent()).toContain("X, Y and Z have been checked");
  });
});
