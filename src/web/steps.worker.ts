import './strict.ts';
import type { FromSteps, ToSteps } from './steps-protocol.ts';
import { serveSteps } from './steps-serve.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToSteps>) => void;
  postMessage: (message: FromSteps) => void;
};
scope.onmessage = ({ data }) => {
  const answer = serveSteps(data);
  if (answer) scope.postMessage(answer);
};
