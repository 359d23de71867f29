import './strict.ts';
import { type FromCutter, serveCut, type ToCutter } from '../core/cutting/index.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToCutter>) => void;
  postMessage: (message: FromCutter) => void;
};
scope.onmessage = ({ data }) =>
  serveCut(
    data,
    (message) => scope.postMessage(message),
    () => performance.now(),
  );
