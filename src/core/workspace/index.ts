export { foldedName } from './folded-name.ts';
export { mergeTexts } from './merge.ts';
export { isDay, priceEdits, priceFaults, readPrices, strangeTo, writePrices } from './prices.ts';
export * from './protocol.ts';
export { farTooLong, readRack, writeRack } from './rack.ts';
export { isLater, tickStates } from './ticks.ts';
