import { useState } from 'hono/jsx/dom';
import type { Audience } from '../../shared/case/answer.ts';
import { whoPhrase } from '../../shared/diagnosis/who.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { brain } from '../brain/client.ts';
import type { FirstJob, ShownJob } from '../brain/protocol.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';

interface Props {
  readonly job: ShownJob;
  readonly part: string | undefined;
  readonly plant: Plant;
  readonly audience: Audience;
}

/** What this plant needs before a job of the plan can be begun, told before anybody sets out to do it. */
export function ComesFirst({ job, part, plant, audience }: Props) {
  const say = useSay();
  const [first, setFirst] = useState<FirstJob | null>(null);
  useEffect(() => {
    // an answer for what is no longer planned comes too late
    let isPlanned = true;
    void brain.comesFirst(plant, audience, job.job, part).then((found) => {
      if (isPlanned) setFirst(found);
    });
    return () => {
      isPlanned = false;
    };
  }, [plant, audience, job.job, part]);
  if (!first) return null;
  return (
    <p class="comes-first">
      {say('plan-first', { job: first.name, who: say(whoPhrase(first.by, audience)) })}
    </p>
  );
}
