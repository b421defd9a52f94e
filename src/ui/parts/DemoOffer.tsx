import { useState } from 'preact/hooks';
import { useApp } from '../app';
import { DEMO, demoRefused } from '../demoWords';

/** Offers the invented studio; nothing where it is what is shown. */
export function DemoOffer() {
  const { demo } = useApp();
  const [state, setState] = useState<'offered' | 'loading' | 'running' | 'unsaved' | 'failed'>('offered');
  if (demo.shown) return null;
  const load = async () => {
    setState('loading');
    const done = await demo.load();
    if (done !== 'going') setState(done);
  };
  return (
    <section class="card">
      <h2>{DEMO.title}</h2>
      <p class="hint">{DEMO.why}</p>
      <button type="button" class="button" disabled={state === 'loading'} onClick={() => void load()}>
        {state === 'loading' ? DEMO.loading : DEMO.offer}
      </button>
      {state === 'offered' || state === 'loading' ? null : (
        <p class="fault" role="alert">
          {demoRefused(state)}
        </p>
      )}
    </section>
  );
}
