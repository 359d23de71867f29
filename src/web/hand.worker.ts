import './strict.ts';
import regular from 'source-sans/WOFF2/TTF/SourceSans3-Regular.ttf.woff2?url';
import semibold from 'source-sans/WOFF2/TTF/SourceSans3-Semibold.ttf.woff2?url';
import { paint } from '../print/canvas.ts';
import type { FromHand, ToHand } from './hand-protocol.ts';
import { type Show, serveHand } from './hand-serve.ts';
import { isMarkedBy } from './marked.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToHand | OffscreenCanvas>) => void;
  postMessage: (message: FromHand) => void;
  fonts: FontFaceSet;
};
/** A worker has no style sheet to name its faces. */
for (const [weight, url] of [
  ['400', regular],
  ['600', semibold],
] as const) {
  const face = new FontFace('Source Sans 3', `url(${new URL(url, import.meta.url)})`, { weight });
  scope.fonts.add(face);
  void face.load();
}

let canvas: OffscreenCanvas | undefined;
const show: Show = (page, pane) => {
  const context = canvas?.getContext('2d');
  if (!canvas || !context) return;
  if (!page || !pane) return context.clearRect(0, 0, canvas.width, canvas.height);
  const { width, height, selected, note } = pane;
  // of another size it begins empty
  if (canvas.width === width && canvas.height === height) context.clearRect(0, 0, width, height);
  else Object.assign(canvas, { width, height });
  paint(context as unknown as CanvasRenderingContext2D, page.marks, pane, isMarkedBy(selected, note));
};
const serve = serveHand(show, (message) => scope.postMessage(message));
scope.onmessage = ({ data }) => {
  // the first message brings what is painted on
  if (data instanceof OffscreenCanvas) canvas = data;
  else serve(data);
};
