import type { Told } from '../diagnosis/result.ts';
import { say } from '../diagnosis/say.ts';
import type { Assumed } from '../plant/defaults.ts';
import { flowText, numberText, pressureText, type Units } from '../ruleset/figures.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';
import { type Purchase, purchasesOf } from './buying.ts';
import { dayOf } from './days.ts';
import type { DueEntry, Figure, Outlook } from './due.ts';
import { remarksOf } from './remarks.ts';
import { uncertaintyAt } from './resistance.ts';
import type { UpkeepRules } from './rules.ts';
import { type Spend, spendOf } from './spend.ts';

/** What `due` gives for one plant: the contract's list, and what it rests on. */
export interface DueReport {
  readonly ruleSet: string;
  readonly today: string;
  readonly due: readonly (Omit<DueEntry, 'why'> & { readonly text: string })[];
  /** resistance of each stretch over time, in times that of clean filters at 20 °C */
  readonly stages: readonly StageReport[];
  readonly buy: readonly Purchase[];
  readonly spend: readonly Spend[];
  readonly currency: string;
  readonly remarks: readonly Told[];
  readonly assumed: readonly Assumed[];
}

export interface StageReport {
  readonly from: string;
  readonly to: string;
  readonly parts: readonly string[];
  /** the need fails when this stretch alone reaches it; null: never, or the others fail it already */
  readonly limitTimesClean: number | null;
  readonly changedOn: readonly string[];
  /** law → probability */
  readonly laws: Readonly<Record<string, number>>;
  readonly points: readonly {
    readonly on: string;
    readonly timesClean: number;
    /** half-width of a 95 % interval */
    readonly uncertainty: number;
  }[];
}

const COVERAGE = 2;

/** The report in the words of one language, its texts in the reader's units. The same outlook gives the same report. */
export function reportOf(
  outlook: Outlook,
  rules: UpkeepRules,
  ruleSet: RuleSet,
  words: Words,
  units: Units,
): DueReport {
  const { upkeep } = outlook;
  return {
    ruleSet: ruleSet.head.version,
    today: upkeep.today,
    due: outlook.due.map(({ why, ...entry }) => ({
      ...entry,
      text: say(words, why.key, holesIn(why.holes, units)),
    })),
    stages: stageReports(outlook),
    buy: purchasesOf(outlook.due, rules, ruleSet),
    spend: spendOf(outlook, rules, ruleSet),
    currency: ruleSet.head.currency,
    remarks: remarksOf(outlook, rules, words, units),
    assumed: outlook.assumed,
  };
}

function holesIn(holes: Readonly<Record<string, Figure>>, units: Units): Record<string, string> {
  const said = (figure: Figure): string => {
    if (typeof figure === 'string') return figure;
    if (typeof figure === 'number') return numberText(figure, 1, units.language, true);
    return 'bar' in figure ? pressureText(figure.bar, units) : flowText(figure.lpm, units, 1);
  };
  return Object.fromEntries(Object.entries(holes).map(([name, figure]) => [name, said(figure)]));
}

/** Resistance of every stretch read, and the limit that would be left to it with the others as they are. */
export function stageReports({ stages, limit }: Outlook): StageReport[] {
  const now = stages.map(({ fit, series }) => fit?.now.resistance ?? series.clean);
  return stages.map(({ series, fit, changes }, i) => {
    const others = now.reduce((sum, r, j) => sum + (j === i ? 0 : r), 0);
    const rest = limit && Number.isFinite(limit.resistance) ? limit.resistance - others : null;
    // Where the others already take all that the need leaves, this stretch has no limit of its own.
    const left = rest !== null && rest > 0 ? rest : null;
    return {
      from: series.from,
      to: series.to,
      parts: series.filters,
      limitTimesClean: left === null ? null : rounded(left / series.clean),
      changedOn: changes.map(dayOf),
      laws: Object.fromEntries(
        Object.entries(fit?.laws ?? {}).map(([law, share]) => [law, rounded(share)]),
      ),
      points: series.points.map((point) => ({
        on: dayOf(point.day),
        timesClean: rounded(point.resistance / series.clean),
        uncertainty: rounded(
          (COVERAGE * uncertaintyAt(point, Math.max(point.resistance, 0))) / series.clean,
        ),
      })),
    };
  });
}

const rounded = (value: number): number => Math.round(value * 1000) / 1000;
