import './strict.ts';
import { type FromCutter, serveCut, solveProblem, type ToCutter } from '../core/cutting/index.ts';

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToCutter>) => void;
  postMessage: (message: FromCutter) => void;
};
scope.onmessage = ({ data }) =>
  serveCut(
    solveProblem,
    data,
    (message) => scope.postMessage(message),
    () => performance.now(),
  );
