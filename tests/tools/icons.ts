// Draws the PNG icons from icon.svg: "npm run icons".
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { launchChromium } from './chromium';

const folder = join(import.meta.dirname, '../../src/public');

// Phones cut their own shape out of the last two: the ground fills them, and the sign keeps to the circle that always shows.
const icons = [
  { file: 'icon-192.png', size: 192, cut: false },
  { file: 'icon-512.png', size: 512, cut: false },
  { file: 'icon-maskable-512.png', size: 512, cut: true },
  { file: 'apple-touch-icon.png', size: 180, cut: true },
];

const svg = await readFile(join(folder, 'icon.svg'), 'utf8');
const browser = await launchChromium();
for (const { file, size, cut } of icons) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const full = '#ground { rx: 0 } #sign { transform: translate(256px, 256px) scale(0.85) translate(-256px, -256px) }';
  await page.setContent(`<style>body { margin: 0 } svg { display: block } ${cut ? full : ''}</style>${svg}`);
  await page.screenshot({ path: join(folder, file), omitBackground: true });
  await page.close();
}
await browser.close();
