/** A plant with one gauge, before its filter. */
export const plant = {
  name: 'one gauge',
  line: [
    { id: 'tank', kind: 'tank' },
    { id: 'pump', kind: 'pump' },
    { id: 'G1', kind: 'gauge' },
    { id: 'sed-1', kind: 'filter', medium: 'sediment' },
    { id: 'house', kind: 'house', taps: [{ id: 'bath', heightM: 5 }] },
  ],
};
