import axe from 'axe-core';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** Returns what axe finds wrong with the page as it stands, a sentence each. */
export async function axeFinds(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const run = Reflect.get(window, 'axe') as { run: () => Promise<{ violations: Violation[] }> };
    type Violation = { id: string; help: string; nodes: { html: string; failureSummary?: string }[] };
    const { violations } = await run.run();
    return violations.flatMap(({ id, help, nodes }) =>
      nodes.map(({ html }) => `${id}: ${help}: ${html.slice(0, 200)}`),
    );
  });
}

/** Returns whether anything on the page reaches past the screen's side, and what. */
export function reachesPastTheSide(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const root = document.documentElement;
    if (root.scrollWidth <= root.clientWidth) return [];
    const wide = [...document.body.querySelectorAll('*')].filter(
      (element) => element.getBoundingClientRect().right > root.clientWidth + 0.5,
    );
    return [`${root.scrollWidth} > ${root.clientWidth}`, ...wide.slice(0, 3).map((one) => one.outerHTML.slice(0, 120))];
  });
}

/** What is the matter with a target: too small, or too near another. */
export type Target = { readonly what: string; readonly fault: string };

/**
 * Returns every button and field that is smaller than 48 by 48 or nearer than 8 to another, in CSS pixels. What lies under a sheet is
 * passed over; of what is partly scrolled out of sight the visible part counts for the distance.
 */
export function badTargets(page: Page): Promise<readonly Target[]> {
  return page.evaluate(() => {
    const LEAST = 48;
    const APART = 8;
    const NEAR = 0.02;
    const name = (one: Element): string =>
      (one.getAttribute('aria-label') ?? one.textContent ?? '').trim().slice(0, 40) || one.outerHTML.slice(0, 80);
    const seen = (one: Element): DOMRect => {
      let { left, top, right, bottom } = one.getBoundingClientRect();
      for (let up = one.parentElement; up; up = up.parentElement) {
        if (getComputedStyle(up).overflowY === 'visible') continue;
        const box = up.getBoundingClientRect();
        left = Math.max(left, box.left);
        top = Math.max(top, box.top);
        right = Math.min(right, box.right);
        bottom = Math.min(bottom, box.bottom);
      }
      // a heading that stays at the top of a sheet covers what is scrolled under it
      for (const head of document.querySelectorAll('[role="dialog"] > *')) {
        if (getComputedStyle(head).position !== 'sticky' || head.contains(one) || !head.parentElement?.contains(one))
          continue;
        top = Math.max(top, head.getBoundingClientRect().bottom);
      }
      return new DOMRect(left, top, Math.max(0, right - left), Math.max(0, bottom - top));
    };
    const targets = [...document.querySelectorAll('button, input, textarea')]
      .filter((one) => !one.closest('[inert]') && one.getClientRects().length > 0)
      .map((one) => ({ one, whole: one.getBoundingClientRect(), box: seen(one) }));
    const faults = targets
      .filter(({ whole }) => whole.width < LEAST - NEAR || whole.height < LEAST - NEAR)
      .map(({ one, whole }) => ({
        what: name(one),
        fault: `is ${whole.width.toFixed(1)} × ${whole.height.toFixed(1)}`,
      }));
    const shown = targets.filter(({ box }) => box.width > 0 && box.height > 0);
    for (const [index, a] of shown.entries()) {
      for (const b of shown.slice(index + 1)) {
        const across = Math.max(a.box.left - b.box.right, b.box.left - a.box.right);
        const down = Math.max(a.box.top - b.box.bottom, b.box.top - a.box.bottom);
        const apart = Math.max(across, down);
        if (apart < APART - NEAR)
          faults.push({ what: name(a.one), fault: `is ${apart.toFixed(1)} from ${name(b.one)}` });
      }
    }
    return faults;
  });
}

/** Looks at a page as it stands on two phones and in both looks: nothing cut, no target too small, nothing that axe finds. */
export async function looksWell(page: Page): Promise<void> {
  for (const width of [390, 320]) {
    await page.setViewportSize({ width, height: 844 });
    expect(await reachesPastTheSide(page)).toEqual([]);
    expect(await badTargets(page)).toEqual([]);
  }
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await axeFinds(page)).toEqual([]);
  }
  await page.setViewportSize({ width: 390, height: 844 });
}
