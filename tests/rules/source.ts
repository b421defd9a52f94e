/** What a file breaks of the house rules that neither the linter nor the compiler can see: one short sentence each.
 *  `path` is from the root, with forward slashes. */
export function broken(path: string, text: string): string[] {
  const lines = text.split('\n');
  const found = [];
  if (lines.length > 301) found.push('is over 300 lines');
  if (!/\.tsx?$/.test(path) || path.startsWith('tests/')) return found;
  const code = withoutComments(text);
  if (markup.test(code)) found.push('makes markup from text');
  if (!path.startsWith('src/log/') && aroundACorner.test(code)) found.push('reaches a denied global around a corner');
  if (path === 'src/domain/day.ts' && /\bDate\.now\b|\bnew Date(\(\s*\)|(?!\())/.test(code))
    found.push('reads the clock');
  if (path.startsWith('src/ui/') && valueImport.test(code)) found.push('imports more than types from log or sync');
  if (pure.test(path)) found.push(...withoutDocblock(lines).map((name) => `exports ${name} without a docblock`));
  return found;
}

const pure = /^(src\/(domain|merge|analysis|plan|report)|fixtures\/demo)\//;
const markup = /\b(innerHTML|outerHTML|insertAdjacentHTML|dangerouslySetInnerHTML|document\.write|DOMParser)\b/;
const aroundACorner = /\b(window|self|globalThis)\.(indexedDB|localStorage|sessionStorage|Date)\b/;
const exported = /^export (?:async )?(?:function\*? (\w+)|const (\w+)[^=]*= (?:async )?(?:<[^>]*>)?\([^)]*\)[^=]*=>)/;

// `import { type a }` counts too: the compiler keeps such an import, and with it the whole file.
const valueImport =
  /\b(?:import|export)\s+(?!type\b)[^;'"]*['"](?:\.\.\/)+(?:log|sync)\/|\bimport\(\s*['"](?:\.\.\/)+(?:log|sync)\//;

function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*/g, '$1');
}

function withoutDocblock(lines: readonly string[]): string[] {
  return lines.flatMap((line, at) => {
    const match = exported.exec(line);
    const name = match?.[1] ?? match?.[2];
    if (name === undefined) return [];
    const above = lines[at - 1] ?? '';
    // The later signatures of an overloaded function stand under the first.
    return above.trimEnd().endsWith('*/') || above.startsWith(`export function ${name}(`) ? [] : [name];
  });
}
