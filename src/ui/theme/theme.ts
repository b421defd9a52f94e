import type { App } from '../app';

export const THEMES = ['system', 'dark', 'light'] as const;
export type Theme = (typeof THEMES)[number];

const GROUND = { dark: '#0f1418', light: '#f7f4ec' } as const;

/** Returns the theme this device was told to use; `system` where it was told nothing. */
export function themeOf(notes: App['notes']): Theme {
  const kept = notes.get('theme');
  return THEMES.find((one) => one === kept) ?? 'system';
}

/** Keeps a theme on this device, and shows it. */
export function chooseTheme(notes: App['notes'], theme: Theme): void {
  notes.set('theme', theme);
  showTheme(theme);
}

/** Shows a theme: the page's colours, and those the browser draws around it. */
export function showTheme(theme: Theme): void {
  if (theme === 'system') delete document.documentElement.dataset['theme'];
  else document.documentElement.dataset['theme'] = theme;
  for (const meta of document.querySelectorAll<HTMLMetaElement>('meta[name="theme-color"]')) {
    const own = meta.media.includes('light') ? 'light' : 'dark';
    meta.content = GROUND[theme === 'system' ? own : theme];
  }
}
