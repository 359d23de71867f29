/** A scale of the drawing: `ratio` is real size over size on paper; `text` is what the title block says. */
export interface Scale {
  readonly ratio: number;
  readonly text: string;
}

/** Source: ISO 5455:1979, table of recommended scales. */
const METRIC: readonly Scale[] = [1, 2, 5, 10, 20, 50, 100, 200, 500].map((ratio) => ({ ratio, text: `1:${ratio}` }));

/** The architect's scales, inches on paper to the foot. Common practice. */
const IMPERIAL: readonly Scale[] = [
  ['full size', 1],
  ['6″ = 1′ 0″', 2],
  ['3″ = 1′ 0″', 4],
  ['1-1⁄2″ = 1′ 0″', 8],
  ['1″ = 1′ 0″', 12],
  ['3⁄4″ = 1′ 0″', 16],
  ['1⁄2″ = 1′ 0″', 24],
  ['3⁄8″ = 1′ 0″', 32],
  ['1⁄4″ = 1′ 0″', 48],
  ['3⁄16″ = 1′ 0″', 64],
  ['1⁄8″ = 1′ 0″', 96],
  ['1⁄16″ = 1′ 0″', 192],
].map(([text, ratio]) => ({ text: text as string, ratio: ratio as number }));

export const scalesOf = (unit: string): readonly Scale[] => (unit === 'ft-in' || unit === 'in' ? IMPERIAL : METRIC);

/** The largest standard scale at which something of a real width and height fits an area of paper. */
export function fittingScale(
  width: number,
  height: number,
  room: { width: number; height: number },
  unit: string,
): Scale {
  const scales = scalesOf(unit);
  return (
    scales.find(({ ratio }) => width / ratio <= room.width && height / ratio <= room.height) ??
    smaller(scales, width, height, room)
  );
}

/** Beyond the standards' smallest: tens of thousands of millimetres on a small sheet. */
function smaller(
  scales: readonly Scale[],
  width: number,
  height: number,
  room: { width: number; height: number },
): Scale {
  let ratio = scales.at(-1)!.ratio;
  while (width / ratio > room.width || height / ratio > room.height) ratio *= 2;
  return { ratio, text: `1:${ratio}` };
}
