import type { JSHandle, Page } from 'playwright-core';
import type { App } from '../../src/ui/app';

/** A node of what is drawn, by the names that the library's build gives its fields. */
type Drawn = { readonly __k?: readonly (Drawn | null)[] | null; readonly props?: { readonly app?: App } };

/**
 * Returns the running app of a page: what no screen asks yet is asked of it directly. It is found where the screens have it from, at the root of what is
 * drawn; the build exposes nothing for it.
 */
export function appOn(page: Page): Promise<JSHandle<App>> {
  return page.evaluateHandle(() => {
    let drawn = (document.getElementById('app') as unknown as { readonly __k?: Drawn } | null)?.__k;
    while (drawn && !drawn.props?.app) drawn = drawn.__k?.find((one) => one !== null) ?? undefined;
    const app = drawn?.props?.app;
    if (!app) throw new Error('the page draws no app');
    return app;
  });
}
