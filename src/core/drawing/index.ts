export { codeBars } from './code.ts';
export { extentOf, LETTER, moved, textsOf } from './draw.ts';
export { emOf, isDrawable, textWidth, withFractions } from './font/measure.ts';
export { hatchLines } from './hatch.ts';
export * from './marks.ts';
