import type { DriverOptions, Line, Report } from './reports';

type Untold = Report extends infer R
  ? R extends Report
    ? Omit<R, 'acts' | 'place'> & { acts?: number }
    : never
  : never;

/**
 * Runs in the page, from before the app does: reports every line as it changes, and taps like a trainer in a hurry until the browser is
 * killed. It knows the screens by roles, names and `data-` marks. Self-contained: it is sent as text.
 */
export function drive({ seed, taste }: DriverOptions): void {
  /** Taps so far that change what is there. */
  let acts = 0;
  let told = 0;
  const heard = new Map<number, () => void>();
  const page = globalThis as unknown as { cuewrightLab: (text: string) => void; cuewrightHeard: (id: number) => void };
  page.cuewrightHeard = (id) => heard.get(id)?.();
  /** Resolves when the harness has heard it. */
  const tell = (report: Untold, heardToo = true): Promise<void> =>
    new Promise((resolve) => {
      told += 1;
      if (heardToo) heard.set(told, resolve);
      page.cuewrightLab(JSON.stringify({ id: heardToo ? told : 0, report: { place: place(), acts, ...report } }));
    });
  /** Taps once the harness has heard what will be tapped; a kill after that finds it prepared. Not where the screen is another by then. */
  const announce = async (report: Untold, button: HTMLElement, isStill: () => boolean): Promise<boolean> => {
    await tell({ acts: acts + 1, ...report });
    if (!button.isConnected || !isStill()) return false;
    acts += 1;
    button.click();
    own += 1;
    return true;
  };

  // --- what the page shows
  const place = (): string => document.querySelector('[data-session]')?.getAttribute('data-session') ?? '';
  const readLine = (line: Element): Line => ({
    set: line.getAttribute('data-set') ?? '',
    saved: line.hasAttribute('data-saved'),
    text: [...(line.firstElementChild?.children ?? [])]
      .slice(1)
      .map((part) => part.textContent)
      .join(' | '),
  });
  const lines = (): Line[] => [...document.querySelectorAll('[data-set]')].map(readLine);
  const states = new Map<string, string>();
  function look(): void {
    const at = place();
    for (const line of lines()) {
      const state = JSON.stringify(line);
      if (states.get(`${at}/${line.set}`) === state) continue;
      states.set(`${at}/${line.set}`, state);
      void tell({ type: 'line', ...line }, false);
    }
  }
  new MutationObserver(look).observe(document, {
    subtree: true,
    childList: true,
    attributes: true,
    characterData: true,
  });

  const { open } = IDBFactory.prototype;
  IDBFactory.prototype.open = function (this: IDBFactory, ...how: Parameters<IDBFactory['open']>) {
    const request = open.apply(this, how);
    request.addEventListener('upgradeneeded', (event) => {
      const { dataLoss, dataLossMessage } = event as IDBVersionChangeEvent & {
        dataLoss?: string;
        dataLossMessage?: string;
      };
      void tell({ type: 'made-anew', why: `${dataLoss}: ${dataLossMessage}` }, false);
    });
    return request;
  };

  // --- chance
  let state = seed >>> 0;
  function random(): number {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  }
  const pick = <T>(from: readonly T[]): T | undefined => from[Math.floor(random() * from.length)];

  // --- hands
  const sleep = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
  const nameOf = (button: Element): string => button.getAttribute('aria-label') ?? button.textContent?.trim() ?? '';
  const buttons = (within: ParentNode = document): HTMLButtonElement[] =>
    [...within.querySelectorAll('button')].filter((one) => !one.disabled && !one.closest('[inert]'));
  const named = (name: RegExp, within?: ParentNode) => buttons(within).find((one) => name.test(nameOf(one)));
  const dialog = () => document.querySelector('[role=dialog]');
  async function until<T>(get: () => T | null | undefined | false, ms = 3000): Promise<T> {
    const end = performance.now() + ms;
    for (;;) {
      const got = get();
      if (got) return got;
      if (performance.now() > end) throw new Error(`waited in vain for ${get.toString()} at ${location.pathname}`);
      await sleep(3);
    }
  }
  const closed = () => until(() => !dialog());

  /** Acts taken in this session since it was opened: only these are undone. */
  let own = 0;

  async function type(field: 'load' | 'reps', text: string): Promise<void> {
    for (let n = 0; n < 2 && !document.querySelector(`input[aria-label=${field}]`); n += 1) {
      named(new RegExp(`^${field}:`))?.click();
      await sleep(0);
    }
    const input = await until(() => document.querySelector<HTMLInputElement>(`input[aria-label=${field}]`));
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(input, text);
    input.dispatchEvent(new InputEvent('input', { bubbles: true }));
    await sleep(0);
  }

  let logged = 0;
  async function log(): Promise<void> {
    const button = named(random() < 0.1 ? /^Log, no rest$/ : /^Log (?!,)/);
    if (!button) return;
    // two sets of one millisecond could not be told from one that was moved and stayed
    while (Date.now() <= logged) await sleep(1);
    void tell({ type: 'will-log' }, false);
    button.click();
    // the set took its instant within the tap
    logged = Date.now();
    own += 1;
    await sleep(0);
    if (!document.querySelector('section[aria-label=pad] p[role=alert]')) return;
    // nothing to prefill from: say it once
    await type('load', String(40 + Math.floor(random() * 40)));
    await type('reps', String(1 + Math.floor(random() * 8)));
  }

  async function touchUp(): Promise<void> {
    const section = document.querySelector('section[aria-label^="Last set"]');
    const current = () => document.querySelector('.set-line-current')?.getAttribute('data-set');
    const set = current();
    if (!section || !set) return;
    const chips = buttons(section).filter((one) => one.getAttribute('aria-pressed') === 'false');
    const chip = pick(chips);
    if (!chip) return;
    const word = nameOf(chip).replace('4+ left', '4 or more left');
    const isStill = () => current() === set && chip.getAttribute('aria-pressed') === 'false';
    await announce({ type: 'will-touch', set, word }, chip, isStill);
  }

  async function settle(): Promise<void> {
    const at = place();
    // an act may be drawn up to a frame after its tap
    await sleep(40);
    await until(() => {
      const foot = document.querySelector('[data-session]')?.textContent ?? '';
      return place() !== at || (!foot.includes('saving…') && lines().every((line) => line.saved));
    });
    if (place() === at) await tell({ type: 'settled', lines: lines() });
  }

  async function undo(): Promise<void> {
    const button = named(/^Undo (set|note|move|removal)/);
    if (!button || own === 0 || lines().length < 2) return;
    if (await announce({ type: 'will-undo' }, button, () => true)) own -= 2;
    await settle();
  }

  async function moveOrRemove(): Promise<void> {
    const line = pick([...document.querySelectorAll('[data-set]')].slice(-3));
    const set = line?.getAttribute('data-set') ?? '';
    if (!line || set.includes(' ')) return;
    line.querySelector('button')?.click();
    const sheet = await until(dialog);
    const move = named(/^move to /, sheet);
    const button = move && random() < 0.8 ? move : named(/^Remove this set/, sheet);
    if (!button) return;
    await announce({ type: button === move ? 'will-move' : 'will-remove', set }, button, () =>
      location.pathname.endsWith(set),
    );
    await closed();
    // often on at once, and sometimes only when it is all in the store
    if (random() < 0.5) await settle();
  }

  async function otherClient(): Promise<void> {
    const tabs = document.querySelector('nav[aria-label=clients]');
    const others = tabs
      ? buttons(tabs).filter((one) => !one.hasAttribute('aria-current') && nameOf(one) !== 'another client')
      : [];
    pick(others)?.click();
    own = 0;
    await sleep(0);
  }

  async function end(): Promise<void> {
    named(/^End$/)?.click();
    const sheet = await until(dialog);
    named(/^End .+session$/, sheet)?.click();
    await until(() => location.pathname === '/');
  }

  async function begin(): Promise<void> {
    const doors = buttons().filter((one) => /^(Resume|Start) /.test(nameOf(one)));
    const door = pick(doors);
    if (!door) return void (await sleep(3));
    own = 0;
    door.click();
    await until(() => place() !== '');
  }

  async function chooseExercise(): Promise<void> {
    named(/^Choose an exercise$/)?.click();
    const sheet = await until(dialog);
    const name = pick(['Front squat', 'Bench press', 'One-arm row']);
    buttons(sheet)
      .find((one) => nameOf(one) === name)
      ?.click();
    await closed();
  }

  async function typeAndStop(): Promise<void> {
    const load = `${30 + Math.floor(random() * 60)}${pick(['', '.5', ',25', ',5'])}`;
    await type('load', load);
    await sleep(400);
    await tell({ type: 'typed', load });
    await sleep(random() * (taste === 'typing' ? 1500 : 400));
    await tell({ type: 'typed-is-over' });
  }

  async function act(): Promise<void> {
    if (place() === '') return begin();
    if (named(/^Choose an exercise$/)) return chooseExercise();
    if (!named(/^Log /)) return otherClient();
    if (lines().length > 30) return end();
    const chance = random();
    const moves = taste === 'moves' ? 0.45 : 0.05;
    if (chance < moves) return moveOrRemove();
    if (taste === 'typing' && chance < 0.5) return typeAndStop();
    if (chance < moves + 0.02) return typeAndStop();
    if (chance < moves + 0.1) return undo();
    if (chance < moves + 0.14) return otherClient();
    if (chance < moves + 0.15) return end();
    if (chance < moves + 0.35) return touchUp();
    if (chance < moves + 0.4) return void named(/^more (load|reps)$/)?.click();
    return log();
  }

  async function live(): Promise<void> {
    for (;;) {
      try {
        await act();
      } catch (error) {
        await tell({ type: 'stuck', why: String(error) });
        if (dialog()) named(/^Close$/)?.click();
        await sleep(50);
      }
      // most acts follow at once, before the last one is saved
      await sleep(random() < 0.85 ? 0 : random() * 60);
    }
  }
  void live();
}
