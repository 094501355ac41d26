import type { Interview } from './interview.ts';
import type { Score } from './score.ts';
import type { World } from './world.ts';

/** One played world as text: what was wrong, what was asked and answered, what was made of it. */
export function worldText(world: World, interview: Interview, score: Score): string {
  const { faults, plant, told, condition } = world;
  const top = [...interview.probabilities].sort((a, b) => b[1] - a[1]).slice(0, 6);
  const placed = (list: typeof faults.sought) =>
    list.map((f) => `${f.cause} at ${f.part}`).join(', ') || 'nothing';
  const explained = new Set([...top.slice(0, 1).map(([cause]) => cause), ...score.sought]);
  const why = [...explained].map((cause) => {
    const weights = (interview.reasons.get(cause) ?? []).map(
      ({ finding, weight }) => `${finding} ${weight.toFixed(1)}`,
    );
    return `  ${cause} ${interview.probabilities.get(cause)?.toFixed(3)}: ${weights.join(', ')}`;
  });
  return [
    `world ${world.index}: ${placed(faults.sought)}; overdue: ${placed(faults.overdue)}; recent work: ${faults.recentWork.join(', ') || 'none'}`,
    `  told: ${JSON.stringify(told.line)}`,
    `  control ${JSON.stringify(plant.line.find((p) => p.kind === 'pump')?.control)}; loss factors ${condition.line.elements
      .filter((e) => e.linearFactor !== 1 || e.extraK > 0)
      .map(
        (e) =>
          `${e.id} ${e.linearFactor.toFixed(1)}×${e.extraK > 0 ? ` +${e.extraK.toExponential(1)}` : ''}`,
      )
      .join(', ')}`,
    ...interview.answers.map(({ question, value }) => `  ${question}: ${JSON.stringify(value)}`),
    `  → ${top.map(([cause, p]) => `${cause} ${p.toFixed(3)}`).join(', ')} (generator’s tables: ${score.own.named})`,
    ...why,
    `  plan: ${interview.plan.map(({ job }) => job).join(', ')}; cost ${JSON.stringify(score.cost)}`,
  ].join('\n');
}
