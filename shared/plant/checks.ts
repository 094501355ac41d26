import { type Fault, InputError } from '../common/errors.ts';
import { joinPlace } from './messages.ts';
import type { BypassPart, FlowAndHead, Part, PumpPart } from './parts.ts';
import type { Plant } from './schema.ts';

/** Refuses what no single field shows: ids twice, the order of parts, pairs of values that contradict each other. */
export function checkPlant(plant: Plant, where: string): void {
  const at = (path: readonly PropertyKey[]) => joinPlace(where, ['line', ...path]);
  checkIds(plant.line, at);
  checkOrder(plant.line, at);
  plant.line.forEach((part, index) => {
    if (part.kind === 'pump') checkPump(part, index, at);
    if (part.kind === 'bypass') checkBypass(part, index, plant.line, at);
  });
  checkBypassesApart(plant.line, at);
}

type At = (path: readonly PropertyKey[]) => string;

function checkIds(line: readonly Part[], at: At): void {
  const firstPlace = new Map<string, string>();
  const claim = (id: string, place: string) => {
    const first = firstPlace.get(id);
    if (first !== undefined) {
      throw new InputError(place, `the id "${id}" is already used at ${first}: every id once`, {
        id: 'id-twice',
        holes: { part: id },
      });
    }
    firstPlace.set(id, place);
  };
  line.forEach((part, index) => {
    claim(part.id, at([index, 'id']));
    if (part.kind !== 'house') return;
    part.taps?.forEach((tap, tapIndex) => {
      claim(tap.id, at([index, 'taps', tapIndex, 'id']));
    });
  });
}

const onlyOnce = ['tank', 'suction', 'pump', 'house'] as const;

function checkOrder(line: readonly Part[], at: At): void {
  const house = line.findIndex((part) => part.kind === 'house');
  if (house < 0)
    throw new InputError(at([]), 'a house is missing: add a part of kind "house" last');
  for (const kind of onlyOnce) {
    const second = line.findLastIndex((part) => part.kind === kind);
    if (second !== line.findIndex((part) => part.kind === kind)) {
      throw new InputError(at([second]), `a second ${kind}: one line has one ${kind}`, {
        id: 'second-of-kind',
        holes: { part: line[second]?.id ?? kind },
      });
    }
  }
  if (house !== line.length - 1) {
    throw new InputError(at([house + 1]), 'stands behind the house: the house is the last part', {
      id: 'behind-house',
    });
  }
  const tank = line.findIndex((part) => part.kind === 'tank');
  if (tank > 0)
    throw new InputError(at([tank]), 'the tank is the first part of a line', {
      id: 'tank-first',
    });
  const pump = line.findIndex((part) => part.kind === 'pump');
  const suction = line.findIndex((part) => part.kind === 'suction');
  if (pump >= 0 && suction > pump) {
    throw new InputError(at([suction]), 'the suction stands before the pump', {
      id: 'suction-first',
    });
  }
}

function checkPump(pump: PumpPart, index: number, at: At): void {
  const { control, curve, npshRequired } = pump;
  if (control?.kind === 'pressure-switch') {
    const { cutInBar, cutOutBar } = control;
    if (cutInBar !== undefined && cutOutBar !== undefined && cutInBar >= cutOutBar) {
      throw new InputError(
        at([index, 'control', 'cutInBar']),
        `cut-in ${cutInBar} bar must be under cut-out ${cutOutBar} bar`,
        {
          id: 'switch-halves',
          holes: { cutIn: { bar: cutInBar }, cutOut: { bar: cutOutBar } },
        },
      );
    }
  }
  if (curve) {
    checkFlowsRise(curve, [index, 'curve'], at);
    checkHeadsFall(curve, [index, 'curve'], at);
  }
  if (npshRequired) checkFlowsRise(npshRequired, [index, 'npshRequired'], at);
}

function checkFlowsRise(points: readonly FlowAndHead[], path: PropertyKey[], at: At): void {
  points.forEach((point, i) => {
    const before = points[i - 1];
    if (before && point.flowLpm <= before.flowLpm) {
      throw new InputError(
        at([...path, i, 'flowLpm']),
        `points go from small to large flow: ${point.flowLpm} follows ${before.flowLpm} L/min`,
        { id: 'flows-rise' },
      );
    }
  });
}

function checkHeadsFall(curve: readonly FlowAndHead[], path: PropertyKey[], at: At): void {
  curve.forEach((point, i) => {
    const before = curve[i - 1];
    if (before && point.headM > before.headM) {
      throw new InputError(
        at([...path, i, 'headM']),
        `head rises with flow from point ${i} (${before.flowLpm} L/min, ${before.headM} m) to point ${i + 1} ` +
          `(${point.flowLpm} L/min, ${point.headM} m): a pump curve falls`,
        { id: 'heads-fall', holes: { first: i, second: i + 1 } },
      );
    }
  });
  const only = curve.length === 1 ? curve[0] : undefined;
  if (only && only.flowLpm === 0) {
    throw new InputError(
      at([...path, 0, 'flowLpm']),
      'a curve of one point needs a flow above zero: give the rated flow and head, or more points',
      { id: 'one-point' },
    );
  }
}

/** What a bypass can lead around: parts behind the source, without the house, other sources or pressure reducers. */
const notAround = ['tank', 'suction', 'pump', 'house', 'bypass', 'mains', 'pressure-reducer'];

function checkBypass(bypass: BypassPart, index: number, line: readonly Part[], at: At): void {
  const pump = line.findIndex((part) => part.kind === 'pump');
  bypass.around.forEach((id, i) => {
    const place = at([index, 'around', i]);
    const found = line.findIndex((part) => part.id === id);
    const part = line[found];
    if (!part) throw new InputError(place, `there is no part "${id}" in this line`);
    if (notAround.includes(part.kind) || found < pump) {
      throw new InputError(
        place,
        `a bypass cannot lead around "${id}" (${part.kind})`,
        bypassAround(id),
      );
    }
    if (bypass.around.indexOf(id) !== i) throw new InputError(place, `"${id}" stands here twice`);
  });
  const [first, last] = spanOf(bypass, line);
  const inTheWay = line
    .slice(first, last + 1)
    .find((part) => part.kind !== 'bypass' && notAround.includes(part.kind));
  if (inTheWay) {
    throw new InputError(
      at([index, 'around']),
      `a bypass cannot lead around "${inTheWay.id}" (${inTheWay.kind}), which stands between those parts`,
      bypassAround(inTheWay.id),
    );
  }
}

const bypassAround = (part: string): Fault => ({ id: 'bypass-around', holes: { part } });

function checkBypassesApart(line: readonly Part[], at: At): void {
  const taken = new Map<number, string>();
  line.forEach((part, index) => {
    if (part.kind !== 'bypass') return;
    const [first, last] = spanOf(part, line);
    for (let i = first; i <= last; i++) {
      const other = taken.get(i);
      if (other !== undefined && line[i]?.kind !== 'bypass') {
        throw new InputError(
          at([index, 'around']),
          `bypass "${part.id}" and bypass "${other}" lead around the same part "${line[i]?.id}"`,
          { id: 'bypasses-meet', holes: { first: other, second: part.id } },
        );
      }
      taken.set(i, part.id);
    }
  });
}

/** First and last place in the line that a bypass leads around. */
function spanOf(bypass: BypassPart, line: readonly { id: string }[]): [number, number] {
  const places = bypass.around.map((id) => line.findIndex((part) => part.id === id));
  return [Math.min(...places), Math.max(...places)];
}
