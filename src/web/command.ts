import { say } from './bench.ts';
import { insist } from './insist.ts';

type Commands = typeof import('./commands.ts');

/** What is done with a whole piece; how is loaded when it is first asked for. */
export async function command<K extends keyof Commands>(what: K, ...given: Parameters<Commands[K]>): Promise<void> {
  const commands = await insist(
    () => import('./commands.ts'),
    () => say('The workbench is not reached: this is done when it is.'),
  );
  (commands[what] as (...given: Parameters<Commands[K]>) => void)(...given);
}
