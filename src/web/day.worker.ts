import './strict.ts';
import type { FromDay, ToDay } from './day-protocol.ts';
import { serveDays } from './day-serve.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToDay>) => void;
  postMessage: (message: FromDay) => void;
};
const serve = serveDays();
scope.onmessage = ({ data }) => scope.postMessage(serve(data));
