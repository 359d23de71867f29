import { mergeTexts } from '../core/workspace/index.ts';

/** What is being written of a plan's text, and the text it was begun on. */
export interface Draft {
  readonly base: string;
  readonly typed: string;
}
export const begun = (text: string): Draft => ({ base: text, typed: text });

/**
 * The draft when the plan's text has become another: with both changes, where they can be woven into one; else as it was typed, still on
 * the text it was begun on.
 */
export function drafted({ base, typed }: Draft, text: string): Draft {
  const merged = mergeTexts(base, typed, text);
  return merged.clean ? { base: text, typed: merged.text } : { base, typed };
}
