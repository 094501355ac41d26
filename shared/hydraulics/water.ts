/** Water at some temperature: what the rest of the hydraulics needs of it. */
export interface Water {
  readonly tempC: number;
  /** kg/m³ */
  readonly densityKgM3: number;
  /** dynamic viscosity, Pa·s */
  readonly viscosityPaS: number;
  /** absolute vapour pressure, Pa */
  readonly vapourPa: number;
  /** viscosity and density over their values at 20 °C */
  readonly viscosityRatio: number;
  readonly densityRatio: number;
}

/**
 * Density of air-free water at 1 atm:
 * ρ = (999.83952 + 16.945176 t − 7.9870401e−3 t² − 46.170461e−6 t³ + 105.56302e−9 t⁴ − 280.54253e−12 t⁵) / (1 + 16.879850e−3 t)
 *
 * @param tempC °C, valid 0–150; checked here 0–60
 * @returns kg/m³
 * Source: G. S. Kell, J. Chem. Eng. Data 20, 97 (1975).
 */
export function densityKgM3(tempC: number): number {
  const t = tempC;
  const top =
    999.83952 +
    t *
      (16.945176 +
        t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 + t * -280.54253e-12))));
  return top / (1 + 16.87985e-3 * t);
}

/**
 * Dynamic viscosity of liquid water at 0.1 MPa:
 * µ = (280.68 T⁻¹·⁹ + 511.45 T⁻⁷·⁷ + 61.131 T⁻¹⁹·⁶ + 0.45903 T⁻⁴⁰) µPa·s with T = K/300
 *
 * @param tempC °C, valid −20 to 110
 * @returns Pa·s
 * Source: IAPWS SR6-08(2011); Pátek et al., J. Phys. Chem. Ref. Data 38, 21 (2009).
 */
export function viscosityPaS(tempC: number): number {
  const ln = Math.log((tempC + 273.15) / 300);
  return (
    1e-6 *
    (280.68 * Math.exp(-1.9 * ln) +
      511.45 * Math.exp(-7.7 * ln) +
      61.131 * Math.exp(-19.6 * ln) +
      0.45903 * Math.exp(-40 * ln))
  );
}

const CRITICAL_K = 647.096;
const CRITICAL_PA = 22.064e6;

/**
 * Vapour pressure of water:
 * ln(p/pc) = (Tc/T)(−7.85951783 τ + 1.84408259 τ^1.5 − 11.7866497 τ³ + 22.6807411 τ^3.5 − 15.9618719 τ⁴ + 1.80122502 τ^7.5),
 * τ = 1 − T/Tc
 *
 * @param tempC °C, valid 0–373
 * @returns Pa, absolute
 * Source: IAPWS SR1-86(1992); W. Wagner & A. Pruss, J. Phys. Chem. Ref. Data 22, 783 (1993).
 */
export function vapourPressurePa(tempC: number): number {
  const kelvin = tempC + 273.15;
  const tau = 1 - kelvin / CRITICAL_K;
  const root = Math.sqrt(tau);
  const cube = tau * tau * tau;
  const sum =
    -7.85951783 * tau +
    1.84408259 * tau * root -
    11.7866497 * cube +
    22.6807411 * cube * root -
    15.9618719 * cube * tau +
    1.80122502 * cube * cube * tau * root;
  return CRITICAL_PA * Math.exp((CRITICAL_K / kelvin) * sum);
}

export const REFERENCE_TEMP_C = 20;
const REFERENCE_DENSITY = densityKgM3(REFERENCE_TEMP_C);
const REFERENCE_VISCOSITY = viscosityPaS(REFERENCE_TEMP_C);

/** Water at a temperature in °C (0–60). */
export function waterAt(tempC: number): Water {
  const density = densityKgM3(tempC);
  const viscosity = viscosityPaS(tempC);
  return {
    tempC,
    densityKgM3: density,
    viscosityPaS: viscosity,
    vapourPa: vapourPressurePa(tempC),
    viscosityRatio: viscosity / REFERENCE_VISCOSITY,
    densityRatio: density / REFERENCE_DENSITY,
  };
}
