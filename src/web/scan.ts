/** More than this of a photograph only costs time: a code that fills a tenth of it still has dots of several pixels. */
const LARGEST = 1400;

type Decode = typeof import('qr/decode.js').default;
/** It is loaded only when a label is photographed. */
export const codeReader = async (): Promise<Decode> => (await import('qr/decode.js')).default;

/**
 * What the code on a photographed label says, if one is found. A photograph and not the live camera: that is given to pages of a secure
 * address only, and a phone in the shop reaches this one by plain HTTP.
 */
export async function readCode(file: Blob, decode: Decode): Promise<string | undefined> {
  const picture = await createImageBitmap(file);
  // large first; a soft or noisy picture is sometimes read better when it is small
  for (const largest of [LARGEST, LARGEST / 2]) {
    const scale = Math.min(1, largest / Math.max(picture.width, picture.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(picture.width * scale);
    canvas.height = Math.round(picture.height * scale);
    const pen = canvas.getContext('2d', { willReadFrequently: true })!;
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    try {
      return decode(pen.getImageData(0, 0, canvas.width, canvas.height));
    } catch {
      // no code at this size
    }
  }
  return undefined;
}
