import { computedKey, type Derivation, type Told } from './computeKey';

/* A worker for one key: it is told what to derive, tells how far it is, and then the key. */

/** A page is not told more often than it draws. */
const STEP = 0.02;

addEventListener('message', ({ data }: MessageEvent<Derivation>) => {
  let last = 0;
  const tell = (told: Told): void => postMessage(told);
  void computedKey(data, (done) => {
    if (done - last < STEP) return;
    last = done;
    tell({ done });
  }).then(
    (key) => tell({ key }),
    () => tell({ failed: true }),
  );
});
