import { expect, test } from 'vitest';
import { thingCalled, wallCalled } from './called.ts';

test.each([
  ['north', 'north wall'],
  ['quay wall', 'quay wall'],
  ['Wall 1', 'Wall 1'],
  ['wallpapered', 'wallpapered wall'],
])('a wall named %s is called %s', (id, called) => expect(wallCalled(id)).toBe(called));

test.each([
  ['door', 'hall', 'door hall'],
  ['door', 'hall door', 'hall door'],
  ['outlet', 'outlet left', 'outlet left'],
  ['door', 'outdoors', 'door outdoors'],
])('a %s named %s is called %s', (kind, id, called) => expect(thingCalled(kind, id)).toBe(called));
