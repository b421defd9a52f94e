/** About how wide letters of the charts' size (13 px) are in a broad face: texts are laid out before they are drawn. */
const LETTERS: readonly (readonly [letters: RegExp, width: number])[] = [
  [/[mwMW%+−°]/, 12],
  [/[A-Z]/, 9.5],
  [/\d/, 8.3],
  [/[ ijlt.,;:]/, 5],
];
const OTHERS = 8.2;
/** Between two texts in a row. */
export const BETWEEN = 10;

/** Returns about how wide a text of a chart is, in pixels. */
export const widthOf = (text: string): number =>
  Math.ceil(
    [...text].reduce((sum, letter) => sum + (LETTERS.find(([letters]) => letters.test(letter))?.[1] ?? OTHERS), 0),
  );

/**
 * Returns the left ends of texts that stand in one row over their places, given from left to right: moved aside as far as they must so that
 * none is cut at a side and none lies on another, where there is room for all.
 */
export function inRow(
  texts: readonly { readonly x: number; readonly width: number }[],
  width: number,
): readonly number[] {
  let most = width;
  const fromRight = [...texts].reverse().map((text) => {
    const from = Math.max(0, Math.min(text.x - text.width / 2, most - text.width));
    most = from - BETWEEN;
    return from;
  });
  let free = 0;
  return fromRight.reverse().map((from, index) => {
    const moved = Math.max(from, free);
    free = moved + (texts[index]?.width ?? 0) + BETWEEN;
    return moved;
  });
}

/** Returns places moved so that neighbours are `least` apart, inside the bounds where there is room; the order is kept. */
export function apart(
  places: readonly number[],
  least: number,
  [low, high]: readonly [low: number, high: number],
): readonly number[] {
  const order = places.map((_, index) => index).sort((a, b) => (places[a] ?? 0) - (places[b] ?? 0));
  const moved = [...places];
  let free = low;
  for (const index of order) {
    moved[index] = Math.max(moved[index] ?? 0, free);
    free = (moved[index] ?? 0) + least;
  }
  let most = high;
  for (const index of order.reverse()) {
    moved[index] = Math.min(moved[index] ?? 0, most);
    most = (moved[index] ?? 0) - least;
  }
  return moved;
}
