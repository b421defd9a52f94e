import { type CDPSession, chromium, type Page } from 'playwright-core';
import { phone } from '../tools/chromium';
import type { Pipe } from './pipe';
import { endpoint, type Started } from './process';

const { width, height } = phone.viewport;
const MEASURES = { width, height, deviceScaleFactor: 1, mobile: true };

/** Connects to a browser started with a port, and gives its one page the measures of a phone. */
export async function phonePage(browser: Started): Promise<{ readonly page: Page; readonly cdp: CDPSession }> {
  const connected = await chromium.connectOverCDP(await endpoint(browser));
  const context = connected.contexts()[0];
  const page = context?.pages()[0] ?? (await context?.newPage());
  if (!page || !context) throw new Error('the browser has no page');
  const cdp = await context.newCDPSession(page);
  await cdp.send('Emulation.setDeviceMetricsOverride', MEASURES);
  await cdp.send('Emulation.setTouchEmulationEnabled', { enabled: true });
  return { page, cdp };
}

/** The same over pipes: runs `scripts` in the page before all else, and opens `url`. What the page tells `binding` is heard by `hear`. */
export async function openOverPipe(
  pipe: Pipe,
  url: string,
  scripts: readonly string[],
  binding: string,
  hear: (text: string, answer: (script: string) => void) => void,
): Promise<void> {
  const { targetInfos } = (await pipe.send('Target.getTargets')) as {
    targetInfos: { type: string; targetId: string }[];
  };
  const targetId = targetInfos.find((target) => target.type === 'page')?.targetId;
  const attached = await pipe.send('Target.attachToTarget', { targetId, flatten: true });
  const session = String(attached['sessionId']);
  pipe.on('Runtime.bindingCalled', ({ payload, executionContextId }) => {
    const answer = (script: string): void => {
      pipe
        .send('Runtime.evaluate', { expression: script, contextId: executionContextId }, session)
        .catch(() => undefined);
    };
    hear(String(payload), answer);
  });
  await Promise.all([
    pipe.send('Page.enable', {}, session),
    pipe.send('Runtime.enable', {}, session),
    pipe.send('Emulation.setDeviceMetricsOverride', MEASURES, session),
    pipe.send('Emulation.setTouchEmulationEnabled', { enabled: true }, session),
    pipe.send('Runtime.addBinding', { name: binding }, session),
    ...scripts.map((source) => pipe.send('Page.addScriptToEvaluateOnNewDocument', { source }, session)),
  ]);
  await pipe.send('Page.navigate', { url }, session);
}
