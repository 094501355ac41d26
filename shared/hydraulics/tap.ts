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
