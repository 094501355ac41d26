import { useSay } from '../common/words.ts';

/** Simple line drawings of what a hand does, by the ids that the job sheets name. */
const drawings: Readonly<Record<string, string>> = {
  // a switch turned off, a padlock through it
  'lock-power':
    'M20,20H80V100H20ZM50,36V58M50,58L36,46M104,60H152V100H104ZM114,60V48A14,14 0 0 1 142,48V60M128,76V86M80,80H104',
  // a lever across the pipe
  'valve-shut': 'M10,62H66M114,62H170M66,48H114V76H66ZM90,48V14M78,14H102M84,62H96',
  // a lever half way, an arrow slowly round
  'open-slowly':
    'M10,72H66M114,72H170M66,58H114V86H66ZM90,58L116,28M106,22L124,36M132,44A46,46 0 0 1 138,66M138,66L130,58M138,66L146,58',
  // a housing, a button on its cap with a thumb, drops
  bleed:
    'M60,34H120V54H60ZM66,54V104Q66,112 74,112H106Q114,112 114,104V54M84,34V24H96V34M90,6V20M82,14L90,22L98,14M128,30L140,24M128,38L142,38',
  // a housing and a wrench turning it left, seen from below
  'turn-housing':
    'M90,60m-30,0a30,30 0 1 0 60,0a30,30 0 1 0 -60,0M112,40L160,16M118,48L166,24M54,24A52,52 0 0 0 40,76M40,76L32,64M40,76L52,68',
  // a ring in its groove
  'o-ring':
    'M90,60m-44,0a44,44 0 1 0 88,0a44,44 0 1 0 -88,0M90,60m-34,0a34,34 0 1 0 68,0a34,34 0 1 0 -68,0M150,20L124,36M124,36L136,36M124,36L128,25',
  // a cartridge upright between two seats
  'cartridge-seat':
    'M50,20V110H130V20M64,104H116M64,22H116M70,28H110V98H70ZM82,28V98M98,28V98M90,6V18M84,12L90,18L96,12',
  // a gauge with its pointer on the stop
  'gauge-rest':
    'M90,56m-44,0a44,44 0 1 0 88,0a44,44 0 1 0 -88,0M90,56L60,80M58,84L50,78M90,18V26M122,36L116,42M58,36L64,42M90,100V118',
  // a vessel with a gauge at its gas valve
  'gas-valve':
    'M50,40Q50,14 90,14Q130,14 130,40V84Q130,110 90,110Q50,110 50,84ZM50,66Q90,84 130,66M90,14V4M130,30H150M150,30m0,0a14,14 0 1 0 28,0a14,14 0 1 0 -28,0M164,30L170,22',
  // a tube, its plug pulled, light off
  uv: 'M16,44H120V80H16ZM30,62H106M120,62H138M146,54V70M146,58H154M146,66H154M164,62H178M44,30L92,98M92,30L44,98',
  // a plug going in, a switch on
  'power-on':
    'M20,20H80V100H20ZM50,84V62M50,62L64,46M104,60H130M130,46V74H142V46ZM142,54H152M142,66H152M160,46H172V74H160Z',
};

export function StepDrawing({ drawing }: { readonly drawing: string }) {
  const say = useSay();
  const path = drawings[drawing];
  if (path === undefined) return null;
  return (
    <svg
      class="step-drawing"
      viewBox="0 0 184 122"
      role="img"
      aria-label={say(`drawing-${drawing}`)}
    >
      <path class="step-line" d={path} />
    </svg>
  );
}
