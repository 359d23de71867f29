export { billCsv, partsCsv } from './csv.ts';
export { toGltf } from './gltf.ts';
export { type IcalendarOptions, toIcalendar } from './icalendar.ts';
export { type PacketOptions, packetOf } from './packet.ts';
export { DARK, LIGHT } from './palette.ts';
export { type Fonts, type PdfOptions, toPdf } from './pdf.ts';
export { escapeXml, type SvgOptions, sheetCss, toSvg } from './svg.ts';
