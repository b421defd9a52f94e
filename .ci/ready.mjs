// Makes a fresh copy ready to run: packages, and with --browser the browser of the tests. Node built-ins only, and
// nothing is printed or done when all is there.
import { execFileSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { findChromium } from './chromium.mjs';

const root = join(import.meta.dirname, '..');

if (packagesAreOld()) run('npm', ['ci', '--no-audit', '--no-fund']);
if (process.argv.includes('--browser') && findChromium() === undefined) installChromium();

function packagesAreOld() {
  // npm writes this file last, so a broken-off install counts as none.
  const installed = join(root, 'node_modules/.package-lock.json');
  return !existsSync(installed) || statSync(installed).mtimeMs < statSync(join(root, 'package-lock.json')).mtimeMs;
}

function installChromium() {
  const mayInstall = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (mayInstall) {
    run('apt-get', ['update', '-qq']);
    run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium']);
  }
  if (findChromium() === undefined) {
    console.error('The browser tests need Chromium: install it, or name it in the variable CHROMIUM.');
    process.exit(1);
  }
}

function run(command, args) {
  try {
    execFileSync(command, args, {
      cwd: root,
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  } catch {
    console.error(`"${command} ${args.join(' ')}" failed.`);
    process.exit(1);
  }
}
