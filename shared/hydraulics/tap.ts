/**
 * Outlet constant from one known point: Q = k·√p.
 * @returns m³/s per √Pa
 */
export function outletK(flowM3s: number, pressurePa: number): number {
  return flowM3s / Math.sqrt(pressurePa);
}

/** Flow of an outlet, m³/s; an outlet under no pressure gives nothing and draws nothing. */
export function outletFlowM3s(k: number, pressurePa: number): number {
  return pressurePa > 0 ? k * Math.sqrt(pressurePa) : 0;
}

/** Cv of a valve per Kv: US gallons a minute at 1 psi against m³/h at 1 bar (ISA-75.01.01, IEC 60534). */
export const CV_PER_KV = 1.156099228;

/** Flow of a valve of Kv (m³/h at 1 bar) at a drop, with water's density over 1000 kg/m³: Q = Kv·√(Δp/G). */
export function kvFlowM3s(kv: number, dropPa: number, gravity = 1): number {
  return dropPa > 0 ? (kv / 3600) * Math.sqrt(dropPa / 1e5 / gravity) : 0;
}

/**
 * Loss coefficient of a valve on its bore: K = 1.6e9·D⁴/Kv² with D in m (TP-410M).
 */
export function lossCoefficientOfKv(kv: number, boreM: number): number {
  return (1.6e9 * boreM ** 4) / (kv * kv);
}

/** Half-width of what a household bucket's mark is off, share of its volume; our own estimate. */
const BUCKET_SHARE = 0.05;
/** Half-width of starting or stopping a watch with the tap, s; our own estimate. */
const WATCH_S = 0.5;

/**
 * Flow by bucket and watch with its standard uncertainty: the bucket's mark, and the watch at start and at stop, each
 * evenly spread in its limits (JCGM 100:2008, 4.3.7).
 *
 * @param seconds above zero
 */
export function bucketFlow(litres: number, seconds: number): { m3s: number; u: number } {
  const m3s = litres / 1000 / seconds;
  const volume = BUCKET_SHARE / Math.sqrt(3);
  const time = (WATCH_S / Math.sqrt(3) / seconds) * Math.SQRT2;
  return { m3s, u: m3s * Math.hypot(volume, time) };
}
