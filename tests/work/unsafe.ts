import type { Edit } from './files.ts';

export const blocks = 'work/blocks.yaml';

interface Unsafe {
  readonly title: string;
  readonly edits: readonly Edit[];
  readonly job: string;
  readonly says: string;
  readonly path?: RegExp;
}

/** Rule sets made unsafe on purpose: what is changed, the job it breaks, what must be said of it and of the way there. */
export const unsafe: readonly Unsafe[] = [
  {
    title: 'one sign of zero pressure is taken for enough',
    edits: [
      ['work/conditions.yaml', 'atLeast: 2\n    of: [tap-dry', 'atLeast: 1\n    of: [tap-dry'],
      [blocks, /- \{ id: no-second-sign[^}]*\}[^}]*\}/, ''],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part under pressure',
    path: /the tap deceives/,
  },
  {
    title: 'a gauge that stays up leads onward',
    edits: [
      [
        blocks,
        /above-rest: \{ shows: (\{[^}]*\}), branch: gauge-stays-up \}/,
        'above-rest: { makes: [gauge-down], shows: $1 }',
      ],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part under pressure',
    path: /gauge-down: above-rest/,
  },
  {
    title: 'a tap that runs on and a bleed that hisses on lead onward, and nothing need be made',
    edits: [
      [blocks, /branch: valve-passes/g, 'makes: [tap-dry]'],
      [blocks, /branch: bleed-hisses/g, 'makes: [bleed-silent]'],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part under pressure',
    path: /the valve passes water/,
  },
  {
    title: 'the supply is never shut',
    edits: [[blocks, /does: \[shut-supply\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'says "isolated" when it is not so',
  },
  {
    title: 'nothing makes the part isolated',
    edits: [[blocks, /makes: \[isolated\]/g, 'makes: [told]']],
    job: 'change-sediment',
    says: 'can never be finished',
  },
  {
    title: 'the pump is switched off but not locked',
    edits: [[blocks, /does: \[lock-power\]/g, 'does: [switch-off]']],
    job: 'change-sediment',
    says: 'opens a wetted part while the pump can still start',
  },
  {
    title: 'nobody tries whether the right switch is locked',
    edits: [
      [
        blocks,
        /silent: \{ makes: \[pump-tried\], shows: \{[^}]*\} \}/,
        'silent: { makes: [pump-tried] }',
      ],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part while the pump can still start',
    path: /the wrong switch is locked/,
  },
  {
    title: 'the house is left to drain back through the open housing',
    edits: [[blocks, /does: \[shut-far\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'opens a wetted part while the house can drain back through it',
  },
  {
    title: 'a break ends nothing',
    edits: [
      ['work/conditions.yaml', /checkAgainAfterMinutes: 60/g, 'checkAgainAfterMinutes: 600000'],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part under pressure',
    path: /a day passes/,
  },
  {
    title: 'opening the inlet does not end "isolated"',
    edits: [[blocks, /(does: \[crack-supply\]\s+)loses: \[isolated\]/, '$1loses: []']],
    job: 'change-sediment',
    says: 'says "isolated" when it is not so',
    path: /crack-supply/,
  },
  {
    title: 'water goes on while the housing is open',
    edits: [
      [
        blocks,
        /(id: seat-cartridge\s+needs: \[part-open, isolated, locked\])/,
        '$1\n      does: [crack-supply]',
      ],
    ],
    job: 'change-sediment',
    says: 'lets water or power on while a part is still open',
  },
  {
    title: 'live terminals are opened without being proved dead',
    edits: [
      [
        'work/pump.yaml',
        /dead: \{ makes: \[dead-proved\], shows: \{[^}]*\} \}/g,
        'dead: { makes: [dead-proved] }',
      ],
    ],
    job: 'set-switch',
    says: 'opens a live part that is not dead',
    path: /the wrong switch is locked/,
  },
  {
    title: 'live terminals are opened by whoever is there',
    edits: [
      ['work/pump.yaml', /id: turn-springs,\s+by: electrician/, 'id: turn-springs, by: technician'],
    ],
    job: 'set-switch',
    says: 'opens a live part without a licensed electrician',
  },
  {
    title: 'the lamp is drawn while it is lit',
    edits: [[blocks, /does: \[uv-off\]/, 'does: []']],
    job: 'change-lamp',
    says: 'takes the lamp out of its shield while it is lit or hot',
  },
  {
    title: 'the lamp chamber is opened with the lamp hot',
    edits: [[blocks, /does: \[uv-cool\]/, 'does: []']],
    job: 'clean-sleeve',
    says: 'opens the lamp chamber while the lamp is lit or hot',
  },
  {
    title: 'the gas of the vessel is set with water behind it',
    edits: [
      [blocks, /does: \[open-far, open-tap\]/g, 'does: []'],
      [blocks, /does: \[open-supply, open-far, open-tap\]/g, 'does: []'],
      [
        blocks,
        /shows: \{ by: (tap|gauge|drain|probe), fact: (no-)?pressure \}/g,
        'shows: { by: eye, fact: no-pressure }',
      ],
    ],
    job: 'set-precharge',
    says: 'works on the gas side of the vessel while its water side is under pressure',
  },
  {
    title: 'the part never counts as closed up',
    edits: [[blocks, /makes: \[closed-up\]/g, 'makes: []']],
    job: 'change-sediment',
    says: 'can never be finished',
  },
  {
    title: 'after a new ring nothing says that the pump is locked',
    edits: [['work/branches.yaml', /fitted: \{\}/, 'fitted: { loses: [locked] }']],
    job: 'change-sediment',
    says: 'cannot be finished from here',
    path: /new-ring/,
  },
  {
    title: 'the valve before the part stays half shut',
    edits: [[blocks, /does: \[open-supply\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'ends with the valve before the part not fully open',
  },
  {
    title: 'the pump stays locked off',
    edits: [[blocks, /does: \[power-on\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'ends with the power of the pump off',
  },
  {
    title: 'the pump is switched on with the taps still open',
    edits: [[blocks, 'does: [open-far, shut-tap]', 'does: [open-far]']],
    job: 'change-carbon',
    says: 'lets power on while a tap is open, so that no pressure can build',
    path: /drain-far/,
  },
  {
    title: 'the house stays shut off',
    edits: [[blocks, /does: \[open-far\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'ends with the house shut off',
  },
  {
    title: 'the bypass stays open',
    edits: [['work/line.yaml', 'does: [shut-bypass]', 'does: []']],
    job: 'open-valves',
    says: 'ends with the bypass open',
  },
  {
    title: 'the lamp stays dark',
    edits: [[blocks, 'does: [uv-on]', 'does: []']],
    job: 'change-lamp',
    says: 'ends with the lamp off',
  },
  {
    title: 'nobody looks for leaks under pressure',
    edits: [[blocks, 'does: [check-leaks]', 'does: []']],
    job: 'change-sediment',
    says: 'ends with no leak check under pressure',
  },
  {
    title: 'the water advice is dropped though nothing was flushed',
    edits: [[blocks, /later: \{\}/, 'later: { earns: [microbes] }']],
    job: 'clean-sleeve',
    says: 'withdraws the water advice before it is earned',
    path: /dose-open: later/,
  },
  {
    title: 'nobody is told that a part beyond the lamp was opened',
    edits: [[blocks, /raises: \[microbes\]/g, 'raises: []']],
    job: 'clean-sleeve',
    says: 'ends with untreated water in the house and no advice about it',
  },
  {
    title: 'a hand-over leaves the housing open with the pump unlocked',
    edits: [
      [blocks, /torn: \{ branch: ring-torn \}/, 'torn: { does: [power-on], ends: handed-over }'],
    ],
    job: 'change-sediment',
    says: 'is handed over with a part open and the supply or pump not locked',
  },
];
