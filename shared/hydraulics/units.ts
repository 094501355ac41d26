/**
 * Units at the edges; everything inside is SI (Pa, m³/s, m, kg/m³, Pa·s).
 * Factors: NIST SP 811 (2008), Appendix B.8 and B.9.
 */

/** Standard acceleration of free fall, m/s² (exact, by convention). */
export const GRAVITY_M_S2 = 9.80665;
const PA_PER_BAR = 100_000;
/** 1 psi = 1 lbf/in², exact chain. */
export const PA_PER_PSI = 6894.757293168361;
const PA_PER_KPA = 1000;
export const STANDARD_ATMOSPHERE_PA = 101_325;
const M3S_PER_LPM = 1 / 60_000;
export const L_PER_US_GALLON = 3.785411784;
export const L_PER_IMPERIAL_GALLON = 4.54609;
export const ML_PER_US_CUP = 236.5882365;
export const ML_PER_US_FLUID_OUNCE = 29.5735295625;
export const W_PER_HORSEPOWER = 745.6998715822702;
export const M_PER_FOOT = 0.3048;
/** Conventional water (1000 kg/m³ at standard gravity), as gauges in metres or feet of water use it. */
export const PA_PER_M_WATER = 9806.65;
export const PA_PER_FOOT_WATER = 2989.06692;

export const barToPa = (bar: number): number => bar * PA_PER_BAR;
export const paToBar = (pa: number): number => pa / PA_PER_BAR;
export const psiToBar = (psi: number): number => (psi * PA_PER_PSI) / PA_PER_BAR;
export const kpaToBar = (kpa: number): number => (kpa * PA_PER_KPA) / PA_PER_BAR;
/** Pressures as people write them, to bar. */
export const toBar = { bar: (bar: number) => bar, psi: psiToBar, kPa: kpaToBar } as const;
export const lpmToM3s = (lpm: number): number => lpm * M3S_PER_LPM;
export const m3sToLpm = (m3s: number): number => m3s * 60_000;
/** US gallons a minute. */
export const gpmToLpm = (gpm: number): number => gpm * L_PER_US_GALLON;
