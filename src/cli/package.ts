import { spawnSync } from 'node:child_process';
import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { argv, exit, stdout } from 'node:process';
import { fileURLToPath } from 'node:url';
import { ASSET_HEADERS, contentRules, PAGE_HEADERS } from './hostHeaders';

/*
 * `npm run package`: the folder to put on a static host, with what the host needs to be told.
 */

/** Returns the text of `_headers`, the plain format that many static hosts read: a pattern, then its headers. */
export function headersFile(page: string): string {
  const block = (pattern: string, headers: Readonly<Record<string, string>>) =>
    [pattern, ...Object.entries(headers).map(([name, value]) => `  ${name}: ${value}`)].join('\n');
  const pages = { ...PAGE_HEADERS, 'Content-Security-Policy': contentRules(page) };
  return `${[block('/*', pages), block('/assets/*', ASSET_HEADERS)].join('\n\n')}\n`;
}

/** Returns the same for a Caddyfile. */
export function caddyFile(page: string): string {
  const lines = Object.entries({ ...PAGE_HEADERS, 'Content-Security-Policy': contentRules(page) });
  return `your.own.name {
	root * /path/to/package
	header {
${lines.map(([name, value]) => `		${name} "${value}"`).join('\n')}
	}
	header /assets/* Cache-Control "${ASSET_HEADERS['Cache-Control']}"
	@hidden path /_headers /_redirects
	respond @hidden 404
	try_files {path} /index.html
	file_server
	encode gzip
}
`;
}

/** Returns the same for an nginx server block. A location with headers of its own inherits none, so both name them all. */
export function nginxFile(page: string): string {
  const lines = (headers: Readonly<Record<string, string>>, indent: string) =>
    Object.entries(headers)
      .map(([name, value]) => `${indent}add_header ${name} "${value}" always;`)
      .join('\n');
  return `server {
	listen 443 ssl;
	server_name your.own.name;
	# ssl_certificate and ssl_certificate_key as for any other site
	root /path/to/package;
	gzip on;
	gzip_types text/css text/javascript application/javascript application/manifest+json image/svg+xml;

	location / {
${lines({ ...PAGE_HEADERS, 'Content-Security-Policy': contentRules(page) }, '\t\t')}
		try_files $uri /index.html;
	}

	location /assets/ {
${lines(ASSET_HEADERS, '\t\t')}
		try_files $uri =404;
	}

	location ~ ^/_(headers|redirects)$ {
		return 404;
	}
}
`;
}

function hostingText(build: string): string {
  return `Cuewright ${build}: the app as a folder of files. It keeps records in the browser of whoever opens it, and sends none anywhere.

Put everything in this folder at the root of a static host, over HTTPS (without it browsers allow neither working offline nor installing).

1. The files go out byte for byte: no rewriting of pages or scripts on the way. A changed file is refused, and the phones stay on the version they have.
2. Unknown paths answer with index.html. _redirects says so in a form that many hosts read; 404.html is for those that only know that name.
3. Headers: _headers, in a form that many hosts read; Caddyfile.example and nginx.conf.example say the same in theirs.
4. An update: put the new folder in place of the old one. Files of the old one may go at once; phones in a session keep what they have, and are offered the new
   version on Today.
5. Keep the address. Records belong to it: at another one the app begins empty, and they come over by a backup file.

Whoever can change these files can read the records of everyone who opens them there. Host it yourself, or trust the host.
`;
}

/** Makes the package from a built `dist` and returns nothing; the folder is made anew. */
export function makePackage(dist: string, folder: string): void {
  rmSync(folder, { recursive: true, force: true });
  cpSync(dist, folder, { recursive: true, filter: (path) => !path.startsWith(join(dist, '.vite')) });
  const page = readFileSync(join(dist, 'index.html'), 'utf8');
  const { build } = JSON.parse(readFileSync(join(dist, 'version.json'), 'utf8')) as { build: string };
  const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
  write('_headers', headersFile(page));
  write('_redirects', '/* /index.html 200\n');
  write('404.html', page);
  write('HOSTING.txt', hostingText(build));
  write('Caddyfile.example', caddyFile(page));
  write('nginx.conf.example', nginxFile(page));
}

function main(): void {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const vite = join(root, 'node_modules/.bin/vite');
  const built = spawnSync(vite, ['build', '--logLevel', 'warn'], { cwd: root, stdio: 'inherit' });
  if (built.status !== 0) exit(1);
  makePackage(join(root, 'dist'), join(root, 'package'));
  stdout.write('package/ holds the app for a static host; HOSTING.txt in it says how.\n');
}

if (argv[1] === fileURLToPath(import.meta.url)) main();
