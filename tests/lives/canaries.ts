let count = 0;

/** Returns a text that stands nowhere else, and tells whose it is: of an erased client none may be found anywhere. */
export function canary(stream: string): string {
  count += 1;
  return `${canaryOf(stream)}${count}`;
}
export const canaryOf = (stream: string): string => `canary-${stream}-`;

/** Texts that were moved with their set [M12]: they are the other client's now, whoever they name. */
export const movedTexts = new Set<string>();

/** So that a life is the same whatever was lived before. */
export const countAnew = (): void => {
  count = 0;
  movedTexts.clear();
};
