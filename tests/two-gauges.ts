/** Switch, vessel and one sediment stage between two gauges: invented, the smallest plant on which a stretch is read. */
export const twoGauges = {
  name: 'two gauges',
  line: [
    { id: 'tank', kind: 'tank' },
    { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3.5 } },
    { id: 'vessel', kind: 'vessel' },
    { id: 'G1', kind: 'gauge' },
    { id: 'sed-1', kind: 'filter', medium: 'sediment' },
    { id: 'G2', kind: 'gauge' },
    { id: 'house', kind: 'house' },
  ],
};
