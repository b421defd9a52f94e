/*
 * The few texts kept outside the database, in localStorage: they tell "first start" from "wiped", and paint Today before a large
 * database is open. localStorage may be refused or full: then each reads as absent, and nothing depends on it.
 */

export type Local = {
  readonly get: (name: string) => string | undefined;
  readonly set: (name: string, text: string) => void;
};

/** Returns the texts of one log by name. */
export function createLocal(log: string): Local {
  return {
    get(name) {
      try {
        return localStorage.getItem(`${log}.${name}`) ?? undefined;
      } catch {
        return undefined;
      }
    },
    set(name, text) {
      try {
        localStorage.setItem(`${log}.${name}`, text);
      } catch {
        // refused or full: absent
      }
    },
  };
}
