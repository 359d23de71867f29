import { useEffect, useState } from 'preact/compat';
import type { Device, Devices as DeviceList, PairingCode } from '../core/workspace/index.ts';
import { ask, useDesk } from './workspace.ts';

/** Devices of the network that are let in, and the way in for another: shown on the machine itself only. */
export default function Devices() {
  const event = useDesk((d) => d.event);
  const [devices, setDevices] = useState<readonly Device[]>([]);
  const [code, setCode] = useState<PairingCode>();
  const [wrong, setWrong] = useState('');
  useEffect(() => {
    if (event && event.type !== 'devices' && event.type !== 'hello' && event.type !== 'again') return;
    void ask<DeviceList>('GET', '/devices').then((answer) => {
      if (answer.ok) setDevices(answer.value.devices);
    });
    // a code is good once: whoever came in has used it
    if (event?.type === 'devices') setCode(undefined);
  }, [event]);
  const pair = async () => {
    const answer = await ask<PairingCode>('POST', '/pair/code');
    setWrong(answer.ok ? '' : answer.refusal.error.message);
    if (answer.ok) setCode(answer.value);
  };
  const forget = async ({ id }: Device) => {
    const answer = await ask<void>('DELETE', `/devices/${id}`);
    setWrong(answer.ok ? '' : answer.refusal.error.message);
    if (answer.ok) setDevices((all) => all.filter((one) => one.id !== id));
  };
  return (
    <>
      <h3>Other devices</h3>
      {devices.length > 0 && (
        <ul className="plans">
          {devices.map((device) => (
            <li key={device.id}>
              {device.name} <small>last here {new Date(device.seen).toLocaleString()}</small>{' '}
              <button type="button" aria-label={`Let ${device.name} in no more`} onClick={() => void forget(device)}>
                Let in no more
              </button>
            </li>
          ))}
        </ul>
      )}
      {code ? (
        <p>
          Open {code.addresses.join(' or ')} there and type <strong className="pair-code">{code.code}</strong>
        </p>
      ) : (
        <button type="button" onClick={() => void pair()}>
          Show a pairing code
        </button>
      )}
      {wrong !== '' && <p role="alert">{wrong}</p>}
    </>
  );
}
