import { Project, type Workspace } from 'epanet-js';
import type { ResolvedHouse, ResolvedPart, ResolvedPlant } from '../../../shared/plant/defaults.ts';
import {
  FlowUnits,
  HeadLossType,
  InitHydOption,
  LinkProperty,
  LinkType,
  NodeProperty,
  NodeType,
  Option,
} from './toolkit.ts';

/**
 * A plant as an EPANET network, written from the plant and not from our own line, so that the two share no arithmetic.
 * EPANET counts in heads: pressures at a height are (head − height)·ρg, with the density handed in.
 */
export interface Network {
  readonly project: Project;
  /** node behind each part, by part id */
  readonly nodes: ReadonlyMap<string, number>;
  /** the link whose flow is the flow of the whole line */
  readonly mainLink: number;
}

/** What feeds the network: the pump on its curve, or a pressure held at its outlet. */
export type Feed = 'pump' | { readonly heldPa: number };

interface NetworkWater {
  readonly densityKgM3: number;
  readonly viscosityPaS: number;
}

/** A data sheet's drop is one at 20 °C: published values, Chaplin's tables of water. */
const VISCOSITY_20C_PAS = 1.0016e-3;
const DENSITY_20C_KGM3 = 998.2;
/** EPANET's own kinematic viscosity, 1.1e-5 ft²/s, to which its viscosity option relates. */
const EPANET_VISCOSITY_M2S = 1.1e-5 * 0.3048 ** 2;
/** Points of a head-loss curve, each flow 1.1 times the last: straight between them it stays within 0.25 % of a parabola. */
const CURVE_FLOWS_LPM = [0, ...Array.from({ length: 64 }, (_, i) => 0.4 * 1.1 ** i)];
const VALVE_BORE_MM = 25;
/** EPANET takes no roughness of zero */
const SMOOTH_MM = 1e-4;

export function buildNetwork(
  ws: Workspace,
  plant: ResolvedPlant,
  open: { readonly open: number | readonly string[] },
  feed: Feed,
  water: NetworkWater,
): Network {
  const project = new Project(ws);
  project.init('report.rpt', 'out.bin', FlowUnits.LPM, HeadLossType.DW);
  project.setOption(Option.Accuracy, 1e-5);
  project.setOption(Option.HeadError, 1e-5);
  project.setOption(Option.Emitexpon, 0.5);
  // Checking the state of pumps and valves at every second trial closes a pump for good where a loop starts far off.
  project.setOption(Option.CheckFreq, 10);
  project.setOption(Option.SpViscos, water.viscosityPaS / water.densityKgM3 / EPANET_VISCOSITY_M2S);
  const paPerM = water.densityKgM3 * 9.80665;
  const names = new Map<string, string>();
  const house = plant.line.at(-1) as ResolvedHouse;
  let at = 'surface';
  const tank = plant.line.find((part) => part.kind === 'tank');
  const pumpIndex = plant.line.findIndex((part) => part.kind === 'pump');
  const held = feed === 'pump' ? null : feed.heldPa / paPerM;
  const surface = project.addNode(at, NodeType.Reservoir);
  const level = tank ? tank.levelM + tank.outletHeightM : 0;
  project.setNodeValue(surface, NodeProperty.Elevation, level);
  names.set('tank', 'surface');

  const bypasses = plant.line.filter((part) => part.kind === 'bypass' && part.open);
  const bypassFrom = new Map<string, string>();

  plant.line.forEach((part, index) => {
    if (part.kind === 'tank' || part.kind === 'house') return;
    if (held !== null && index < pumpIndex) return;
    if (held !== null && index === pumpIndex && part.kind === 'pump') {
      const node = project.addNode('held', NodeType.Reservoir);
      project.setNodeValue(node, NodeProperty.Elevation, held + part.heightM);
      names.set(part.id, 'held');
      at = 'held';
      return;
    }
    for (const bypass of bypasses) {
      if (bypass.kind === 'bypass' && bypass.around[0] === part.id) bypassFrom.set(bypass.id, at);
    }
    if (isValve(part) && (at === 'surface' || at === 'held')) at = standOff(project, at);
    const link = addPart(project, part, at, water);
    if (link !== null) at = part.id;
    names.set(part.id, at);
    for (const bypass of bypasses) {
      if (bypass.kind !== 'bypass' || bypass.around.at(-1) !== part.id) continue;
      const round = project.addLink(
        `round-${bypass.id}`,
        LinkType.TCV,
        bypassFrom.get(bypass.id) ?? '',
        at,
      );
      project.setLinkValue(round, LinkProperty.Diameter, VALVE_BORE_MM);
      project.setLinkValue(round, LinkProperty.InitSetting, 4.05);
    }
  });

  const { pipe } = house;
  project.addNode('house', NodeType.Junction);
  const houseLink = project.addLink('house-pipe', LinkType.Pipe, at, 'house');
  project.setPipeData(
    houseLink,
    Math.max(pipe.lengthM, 0.01),
    pipe.boreMm,
    pipe.roughnessMm,
    pipe.fittingsK,
  );
  names.set(house.id, 'house');
  const outlets = outletsOf(house, open);
  for (const outlet of outlets) {
    const node = project.addNode(`out-${outlet.id}`, NodeType.Junction);
    project.setJunctionData(node, outlet.heightM, 0, '');
    const k = (outlet.flowLpm / Math.sqrt(outlet.atBar * 1e5)) * Math.sqrt(paPerM);
    project.setNodeValue(node, NodeProperty.Emitter, k * outlet.count);
    // An emitter sucks where the pressure is under its height: with several, a check valve keeps the air out.
    const kind = outlets.length > 1 ? LinkType.CVPipe : LinkType.Pipe;
    const link = project.addLink(`to-${outlet.id}`, kind, 'house', `out-${outlet.id}`);
    project.setPipeData(link, 0.01, 100, SMOOTH_MM, 0);
  }
  // EPANET renumbers its nodes while they are added: their numbers are asked for last.
  const nodes = new Map([...names].map(([id, name]) => [id, project.getNodeIndex(name)]));
  return { project, nodes, mainLink: houseLink };
}

/** Solves by the toolkit's own call and reads: flow in L/min, head in m behind every part. */
export function solveNetwork({ project, nodes, mainLink }: Network) {
  project.solveH();
  const heads = new Map<string, number>();
  for (const [id, node] of nodes) heads.set(id, project.getNodeValue(node, NodeProperty.Head));
  return { flowLpm: project.getLinkValue(mainLink, LinkProperty.Flow), heads };
}

function outletsOf(house: ResolvedHouse, open: { readonly open: number | readonly string[] }) {
  if (typeof open.open === 'number') {
    return [{ ...house.tap, id: 'ordinary', heightM: house.heightM, count: open.open }];
  }
  const ids = open.open;
  return house.taps.filter((tap) => ids.includes(tap.id)).map((tap) => ({ ...tap, count: 1 }));
}

/** EPANET ties no valve to a reservoir: a short wide pipe stands between. */
function standOff(project: Project, from: string): string {
  project.addNode('stand-off', NodeType.Junction);
  const link = project.addLink('stand-off-pipe', LinkType.Pipe, from, 'stand-off');
  project.setPipeData(link, 0.01, 100, SMOOTH_MM, 0);
  return 'stand-off';
}

const isValve = (part: ResolvedPart) => ['filter', 'uv', 'pressure-reducer'].includes(part.kind);

/** Adds the part behind `from`; null where it stands on a tee. */
function addPart(project: Project, part: ResolvedPart, from: string, water: NetworkWater) {
  const paPerM = water.densityKgM3 * 9.80665;
  const node = () => {
    const index = project.addNode(part.id, NodeType.Junction);
    const heightM = part.kind === 'tank' ? 0 : part.heightM;
    project.setJunctionData(index, heightM, 0, '');
    return part.id;
  };
  const pipe = (lengthM: number, boreMm: number, roughnessMm: number, k: number) => {
    const link = project.addLink(`in-${part.id}`, LinkType.Pipe, from, node());
    project.setPipeData(link, Math.max(lengthM, 0.01), boreMm, Math.max(roughnessMm, SMOOTH_MM), k);
    return link;
  };
  switch (part.kind) {
    case 'suction':
      return pipe(part.lengthM, part.boreMm, part.roughnessMm, part.fittingsK);
    case 'valve':
      return pipe(0, VALVE_BORE_MM, SMOOTH_MM, 0.05);
    case 'check-valve':
      return pipe(0, VALVE_BORE_MM, SMOOTH_MM, 2);
    case 'pump': {
      const link = project.addLink(`in-${part.id}`, LinkType.Pump, from, node());
      project.addCurve('pump');
      const points = pumpPoints(part.curve);
      project.setCurve(
        project.getCurveIndex('pump'),
        points.map((point) => point.flowLpm),
        points.map((point) => point.headM),
      );
      project.setHeadCurveIndex(link, project.getCurveIndex('pump'));
      return link;
    }
    case 'filter':
    case 'uv': {
      const { flowLpm, dropBar, linearShare } = part.clean;
      const link = project.addLink(`in-${part.id}`, LinkType.GPV, from, node());
      const name = `loss-${part.id}`;
      project.addCurve(name);
      const index = project.getCurveIndex(name);
      project.setCurve(
        index,
        CURVE_FLOWS_LPM,
        CURVE_FLOWS_LPM.map((flow) => {
          const ratio = flow / flowLpm;
          const linear = linearShare * (water.viscosityPaS / VISCOSITY_20C_PAS);
          const square = (1 - linearShare) * (water.densityKgM3 / DENSITY_20C_KGM3) * ratio;
          return ((dropBar * 1e5) / paPerM) * ratio * (linear + square);
        }),
      );
      project.setLinkValue(link, LinkProperty.Diameter, 50);
      project.setLinkValue(link, LinkProperty.GpvCurve, index);
      return link;
    }
    case 'pressure-reducer': {
      const link = project.addLink(`in-${part.id}`, LinkType.PRV, from, node());
      project.setLinkValue(link, LinkProperty.Diameter, VALVE_BORE_MM);
      project.setLinkValue(link, LinkProperty.InitSetting, (part.setBar * 1e5) / paPerM);
      return link;
    }
    default:
      return null;
  }
}

/** EPANET fits a power law to three points only: two points with n = 2 get a third on their parabola. */
function pumpPoints(curve: readonly { flowLpm: number; headM: number }[]) {
  const [first, second] = curve;
  if (!first || !second || curve.length !== 2) return curve;
  const c = (first.headM - second.headM) / second.flowLpm ** 2;
  const flowLpm = second.flowLpm * Math.SQRT1_2;
  return [first, { flowLpm, headM: first.headM - c * flowLpm ** 2 }, second];
}

/** Solves with the equations laid out already (`openH` called before) and reads the flow only: its innermost loop. */
export function solveOpened({ project, mainLink }: Network): number {
  project.initH(InitHydOption.InitFlow);
  project.runH();
  return project.getLinkValue(mainLink, LinkProperty.Flow);
}
