export { foldedName } from './folded-name.ts';
export { type Merge, mergeTexts } from './merge.ts';
export { currentPrices, isDay, priceEdits, priceFaults, readPrices, writePrices } from './prices.ts';
export * from './protocol.ts';
export { readRack, writeRack } from './rack.ts';
export { isLater, tickStates } from './ticks.ts';
