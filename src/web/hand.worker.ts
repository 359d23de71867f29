import './strict.ts';
import type { FromHand, ToHand } from './hand-protocol.ts';
import { serveHand } from './hand-serve.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToHand>) => void;
  postMessage: (message: FromHand) => void;
};
const serve = serveHand();
scope.onmessage = ({ data }) => scope.postMessage(serve(data));
