/** Pieces of work one after another, each when nothing else is to be done: none of them holds up a hand for long. */
export function whenIdle(...works: readonly (() => void)[]): void {
  const [work, ...rest] = works;
  if (!work) return;
  const run = (): void => {
    work();
    whenIdle(...rest);
  };
  // not every browser tells when it is idle
  if (typeof requestIdleCallback === 'function') requestIdleCallback(run, { timeout: 400 });
  else setTimeout(run, 50);
}
