/**
 * Numbers of the EPANET toolkit's enumerations (EPANET 2.2 user manual, toolkit section). The library has them too, but
 * its type declarations do not reach them under Node's module resolution.
 */
export const NodeType = { Junction: 0, Reservoir: 1 } as const;
export const NodeProperty = { Elevation: 0, Emitter: 3, Head: 10 } as const;
export const LinkType = { CVPipe: 0, Pipe: 1, Pump: 2, PRV: 3, TCV: 7, GPV: 8 } as const;
export const LinkProperty = { Diameter: 0, InitSetting: 5, Flow: 8, GpvCurve: 24 } as const;
export const Option = {
  Accuracy: 1,
  Emitexpon: 3,
  HeadError: 5,
  SpViscos: 13,
  CheckFreq: 15,
} as const;
export const FlowUnits = { LPM: 6 } as const;
export const HeadLossType = { DW: 1 } as const;
export const InitHydOption = { InitFlow: 10 } as const;
