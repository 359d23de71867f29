export { type Bench, openBench } from './bench.ts';
export { NewerDatabase } from './database.ts';
export type { MakePacket, PacketAnswer, PacketRequest } from './packets.ts';
