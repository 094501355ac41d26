/**
 * What is mutated, and the quick tests that must notice: in memory, no browser, server or child process. The long
 * proofs and random cases are left out, so a mutant that only they would kill counts as a survivor here.
 */
export const areas = {
  hydraulics: {
    mutate: [/^shared\/hydraulics\//],
    tests: ['tests/hydraulics/*.test.ts', 'tests/outside/*.test.ts'],
    without: ['tests/outside/diagnosis.test.ts', 'tests/outside/cake-filtration.test.ts'],
  },
  work: {
    mutate: [
      /^shared\/work\/(state|conditions|next|moves|apply|go-back|search|prove|world|hazards)\.ts$/,
    ],
    tests: [
      'tests/work/machine.test.ts',
      'tests/work/model*.test.ts',
      'tests/work/prove.test.ts',
      'tests/work/world*.test.ts',
    ],
    without: [],
  },
  diagnosis: {
    mutate: [/^shared\/diagnosis\//],
    tests: [
      'tests/diagnosis/*.test.ts',
      'tests/outside/diagnosis.test.ts',
      'tests/ruleset/cautions.test.ts',
    ],
    without: ['tests/diagnosis/properties.test.ts'],
  },
};
