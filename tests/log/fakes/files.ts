import { caller, forEver, turns } from './life';

/** The origin's private file system of a device: folders of texts, by name. */
export type Files = Map<string, Map<string, string>>;

/** The class whose prototype tells whether files can be written. */
export class FileHandle {
  constructor(
    private readonly folder: Map<string, string>,
    readonly name: string,
  ) {}

  async getFile(): Promise<{ text: () => Promise<string> }> {
    const text = this.folder.get(this.name) ?? '';
    return { text: async () => text };
  }
  /** What is written shows when it is closed, whole; until then the old text stands. */
  async createWritable(): Promise<{ write: (text: string) => Promise<void>; close: () => Promise<void> }> {
    const life = caller();
    let written = '';
    return {
      write: async (text) => {
        written += text;
      },
      close: () => {
        if (life.state === 'dead') return forEver();
        this.folder.set(this.name, written);
        return Promise.resolve();
      },
    };
  }
}

/** Returns the root folder over the files. */
export function rootOf(files: Files): object {
  return {
    async getDirectoryHandle(name: string, options?: { create?: boolean }) {
      const folder = files.get(name) ?? (options?.create ? new Map<string, string>() : undefined);
      if (!folder) throw new DOMException('', 'NotFoundError');
      files.set(name, folder);
      return folderOver(folder);
    },
  };
}

function folderOver(folder: Map<string, string>): object {
  return {
    async getFileHandle(name: string, options?: { create?: boolean }) {
      if (!folder.has(name)) {
        if (!options?.create) throw new DOMException('', 'NotFoundError');
        folder.set(name, '');
      }
      return new FileHandle(folder, name);
    },
    async removeEntry(name: string) {
      const life = caller();
      await turns(1);
      if (life.state === 'dead') return forEver<void>();
      if (!folder.delete(name)) throw new DOMException('', 'NotFoundError');
    },
    async *keys() {
      yield* [...folder.keys()];
    },
  };
}
