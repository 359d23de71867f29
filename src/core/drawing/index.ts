export { codeBars, codeModules } from './code.ts';
export { extentOf, LETTER, moved, textsOf } from './draw.ts';
export { emOf, isDrawable, textWidth, withFractions } from './font/measure.ts';
export { hatchLines } from './hatch.ts';
export type * from './input.ts';
export { noSpots, type Spots } from './layout/place.ts';
export * from './marks.ts';
export { type NumberedPart, partNumbers } from './pages/desk.ts';
export { LABEL_SHEETS, type LabelSheet } from './pages/labels.ts';
export {
  drawLive,
  isLivePage,
  type PacketOptions,
  packetPages,
  packetSheets,
  type RegisterEntry,
} from './pages/packet.ts';
export { boxesOf } from './view/project.ts';
