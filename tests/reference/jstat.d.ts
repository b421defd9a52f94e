/** The little of jstat that the tests use; it brings no types. */
declare module 'jstat' {
  const jStat: {
    readonly normal: {
      readonly cdf: (x: number, mean: number, sd: number) => number;
      readonly inv: (p: number, mean: number, sd: number) => number;
      readonly pdf: (x: number, mean: number, sd: number) => number;
    };
  };
  export = jStat;
}
