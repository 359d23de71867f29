/** 500, 1000 and 2000 Hz of the octave bands from 125 Hz on: what speech is judged by. */
export const MID = [2, 3, 4];
export const midOf = (times: readonly number[]): number => MID.reduce((sum, b) => sum + times[b]!, 0) / MID.length;
export const worstOf = (times: readonly number[]): number => Math.max(...MID.map((b) => times[b]!));
