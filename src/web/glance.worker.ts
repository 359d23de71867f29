import './strict.ts';
import type { FromGlance, ToGlance } from './glance-protocol.ts';
import { serveGlance } from './glance-serve.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToGlance>) => void;
  postMessage: (message: FromGlance) => void;
};
const serve = serveGlance();
scope.onmessage = ({ data }) => scope.postMessage(serve(data));
