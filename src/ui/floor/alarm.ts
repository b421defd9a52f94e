/*
 * What tells that a rest is over, where the browser allows it: a tone (only after a tap has woken the sound), and a short vibration (not on
 * iOS). The screen says it in any case.
 */

let sound: AudioContext | undefined;

/** Wakes the sound at the next touch; browsers allow it only from one, and again after each time in the background. */
function wakeAtTouch(): void {
  document.addEventListener('pointerup', wakeSound, { once: true });
}

function wakeSound(): void {
  try {
    sound ??= new AudioContext();
    if (sound.state === 'suspended') void sound.resume();
  } catch {
    // no sound to be had: the screen tells
  }
}

/** Tells that a rest is over. */
export function restIsOver(): void {
  navigator.vibrate?.([120, 80, 120]);
  if (sound?.state !== 'running') return;
  const tone = sound.createOscillator();
  const volume = sound.createGain();
  tone.frequency.value = 660;
  volume.gain.setValueAtTime(0.15, sound.currentTime);
  volume.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + 0.5);
  tone.connect(volume).connect(sound.destination);
  tone.start();
  tone.stop(sound.currentTime + 0.5);
}

/** Keeps the screen and the sound awake while a session is on it; asks again whenever the page comes back. Returns the way to stop. */
export function keepAwake(): () => void {
  let lock: WakeLockSentinel | undefined;
  let stopped = false;
  const ask = async () => {
    if (stopped || document.visibilityState !== 'visible') return;
    wakeAtTouch();
    if (!('wakeLock' in navigator)) return;
    try {
      lock = await navigator.wakeLock.request('screen');
      if (stopped) await lock.release();
    } catch {
      // refused (low battery): the screen may go dark, the clock goes on
    }
  };
  void ask();
  document.addEventListener('visibilitychange', ask);
  return () => {
    stopped = true;
    document.removeEventListener('visibilitychange', ask);
    document.removeEventListener('pointerup', wakeSound);
    void lock?.release();
  };
}
