/** The day prices are held against, by this device's clock. */
export const today = (): string => new Date().toLocaleDateString('sv-SE');
