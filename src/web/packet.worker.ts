import './strict.ts';
import type { FromPacket, ToPacket } from './packet-protocol.ts';
import { servePacket } from './packet-serve.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToPacket>) => void;
  postMessage: (message: FromPacket) => void;
};
const serve = servePacket((message) => scope.postMessage(message));
scope.onmessage = ({ data }) => serve(data);
