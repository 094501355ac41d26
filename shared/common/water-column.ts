/** A metre of water as gauges see it: 998.2 kg/m³ at 20 °C (IAPWS R6-95). */
export const BAR_PER_M = 0.0979;
