import { signal } from '@preact/signals';

/*
 * How the app can be installed here, told by what the browser can do rather than by its name.
 */

/** The browser's own offer to install, where it makes one. */
type InstallOffer = Event & { readonly prompt: () => Promise<unknown> };

export type InstallWay = 'installed' | 'button' | 'ios' | 'mac-safari' | 'firefox-phone' | 'firefox-desk' | 'menu';

const offer = signal<InstallOffer | null>(null);
const installed = signal(false);

/** Keeps the browser's offer to install for when it is wanted: left to itself it may show in the middle of a set. */
export function keepInstallOffer(): void {
  addEventListener('beforeinstallprompt', (event) => {
    event.preventDefault();
    offer.value = event as InstallOffer;
  });
  addEventListener('appinstalled', () => {
    installed.value = true;
  });
}

/** Returns how the app is installed in this browser. Read while drawing, it draws again when the browser makes its offer. */
export function installWay(): InstallWay {
  // Apple's phones and tablets alone say whether a page stands alone by this name
  const alone = (navigator as { standalone?: boolean }).standalone;
  if (installed.value || alone === true || standsAlone()) return 'installed';
  if (offer.value) return 'button';
  const isTouch = navigator.maxTouchPoints > 1;
  if (alone !== undefined && isTouch) return 'ios';
  if ('GestureEvent' in window) return 'mac-safari';
  if (CSS.supports('-moz-appearance', 'none')) return isTouch ? 'firefox-phone' : 'firefox-desk';
  return 'menu';
}

/** Shows the browser's own question, from a tap. It can be asked once. */
export function askToInstall(): void {
  void offer.value?.prompt();
  offer.value = null;
}

function standsAlone(): boolean {
  return ['standalone', 'minimal-ui', 'fullscreen', 'window-controls-overlay'].some(
    (mode) => matchMedia(`(display-mode: ${mode})`).matches,
  );
}
