/** What share of what it may take something is asked for, in words: what is asked more than all is never told as 100 %. */
export function usedWords(use: number): string {
  if (!Number.isFinite(use)) return 'more than all';
  return `${use > 1 ? Math.ceil(use * 100 - 1e-6) : Math.round(use * 100)} %`;
}
