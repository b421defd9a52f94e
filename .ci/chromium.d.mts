export declare function findChromium(): string | undefined;
