import { describe, expect, it } from 'vitest';
import { latestRuleSet } from '../../src/rules/read.ts';

/** The ids that others run against: a rule set may hold more, never fewer. */
const list = (text: string) => text.trim().split(/\s+/);

const causes = list(`
  sediment-blocked carbon-blocked membrane-blocked pump-worn pump-tripped power-off pump-seized pump-unprimed
  control-failed suction-blocked suction-air-leak tank-low precharge-low precharge-high diaphragm-failed
  check-valve-leaking leak-downstream control-misset valve-part-closed bypass-open house-pipe-restricted
  outlet-restricted reducer-faulty demand-too-high air-trapped pipe-frozen gauge-faulty uv-valve-shut
  uv-lamp-aged uv-out uv-sleeve-fouled carbon-exhausted sediment-bypassed cartridge-wrong tank-sludge
  tank-contaminated water-stagnant line-biofilm roof-runoff metal-pickup salt-intrusion chlorine-overdose
  source-chemical softener-fault hot-water-side air-dissolved`);

const answers: Readonly<Record<string, readonly string[]>> = {
  danger:
    list(`shock burning wet-electrics flooded burst scalding vessel-damaged uv-exposed chemical-exposure
    fuel-smell sewage-smell illness`),
  caller: list('at-plant away'),
  household: list('infant pregnant elderly weak-immunity dialysis animals'),
  complaint:
    list(`weak no-water pulsing pump-restless too-high smell taste look noise leak tank-drops alarm
    routine`),
  onset: list('sudden gradual after-work after-rain after-dry after-absence after-frost'),
  scope: list('one-tap hot-only upper-floor whole-house'),
  'pump-open': list('steady cycles-slow cycles-fast cycles weak-steady silent hums runs-dry'),
  'pump-closed': list('stays-off short-bursts never-stops'),
  smell: list('none rotten-egg earthy chlorine plastic-fuel'),
  taste: list('none metallic earthy salty chemical'),
  look: list('clear cloudy-clears cloudy-stays brown specks green-blue'),
  'tank-level': list('full half low below-outlet'),
  readings: [],
  flow: [],
  'shut-off': [],
  'pressure-hold': [],
  'pressure-hold-isolated': [],
  precharge: ['water-at-valve'],
  'cycle-times': [],
  'uv-light': list('on off alarm'),
  'lamp-hours': [],
  'filters-changed': [],
  'air-seen': list('none spurts bubbles-constant'),
  'pump-sound': list('normal gravel grinding silent'),
  'power-at-pump': list('on off'),
  'suction-vacuum': [],
  'strainer-look': list('clean clogged'),
  'aerator-compare': list('same better-without'),
  'empty-housing': list('restored better same'),
  'valves-look': list('all-open one-part-closed'),
  'recent-work': list('filters pump plumbing tank electrics'),
  'first-draw': list('clears stays'),
  stain: list('none blue-green brown white'),
  'water-test': [],
};

const jobs = list(`
  change-sediment change-carbon change-membrane change-lamp clean-sleeve set-precharge change-vessel
  clean-strainer mend-suction-air prime-pump reset-pump-once restore-power change-pump change-check-valve
  find-leak set-switch change-control open-valves clean-outlets bleed-air flush-line disinfect-tank
  disinfect-line desludge-tank clean-roof fill-tank reduce-demand reseat-cartridge raise-ph change-gauge
  lab-test leave-until-due call-technician call-electrician test-empty-housing test-strainer test-precharge
  test-pressure-hold test-shut-off`);

const cautions = list(`
  stop boil-or-bottled bottled-do-not-boil vulnerable-household uv-not-last pump-off-now licensed-only
  do-not-enter-tank`);

const warnings = list(`
  uv-before-sediment uv-not-last switch-without-vessel gauge-range-low reading-past-range
  gauge-differs-at-rest reading-rises`);

const fields = list('ph turbidityNtu ironMgL copperMgL freeChlorineMgL uvtPercent eColi');

const { ruleSet, words } = latestRuleSet();

describe('the rule set holds every id that others run against', () => {
  it.each(causes)('cause %s', (id) => expect(Object.keys(ruleSet.causes)).toContain(id));
  it.each(jobs)('job %s', (id) => expect(Object.keys(ruleSet.jobs)).toContain(id));
  it.each(cautions)('caution %s', (id) => expect(Object.keys(ruleSet.cautions)).toContain(id));
  it.each(Object.entries(answers))('question %s with its answers', (id, wanted) => {
    expect(Object.keys(ruleSet.questions)).toContain(id);
    expect(ruleSet.questions[id]!.answers).toEqual(expect.arrayContaining([...wanted]));
  });
  it('gives every value of a water test its bands', () => {
    expect(Object.keys(ruleSet.questions['water-test']!.bands!).sort()).toEqual([...fields].sort());
  });
  it('says whom to call for every danger sign', () => {
    expect(Object.keys(ruleSet.dangers).sort()).toEqual([...(answers.danger ?? [])].sort());
  });
});

describe.each(ruleSet.head.languages)('the words in %s', (language) => {
  const spoken = words[language]!;
  it.each(warnings)('speak of the plant warning %s', (id) =>
    expect(spoken.warnings[id]).toBeTruthy(),
  );
  it('speak to all three audiences wherever something is asked or said', () => {
    const said = [
      ...Object.values(spoken.causes).map((cause) => cause.says),
      ...Object.values(spoken.questions).map((question) => question.ask),
      ...Object.values(spoken.jobs).map((job) => job.lookFor),
      ...Object.values(spoken.cautions),
      ...Object.values(spoken.dangers).map((danger) => danger.call),
    ];
    for (const text of said) expect(new Set(Object.values(text)).size).toBe(3);
  });
  it('give the agent a line to read aloud, in quotes', () => {
    for (const question of Object.values(spoken.questions))
      expect(question.ask.agent).toMatch(/^"[^"]+"/);
    for (const cause of Object.values(spoken.causes)) expect(cause.says.agent).toMatch(/^"[^"]+"/);
  });
  it('never call it an error', () => {
    expect(JSON.stringify(spoken)).not.toMatch(/error detected|\berror code\b|invalid/i);
  });
});
