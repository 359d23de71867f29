export { codeBars } from './code.ts';
export { extentOf, LETTER, moved, textsOf } from './draw.ts';
export { emOf, isDrawable, textWidth, withFractions } from './font/measure.ts';
export { hatchLines } from './hatch.ts';
export type * from './input.ts';
export * from './marks.ts';
export { type PacketOptions, packetPages } from './pages/packet.ts';
