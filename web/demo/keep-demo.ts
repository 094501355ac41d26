import { fernhollow } from '../../shared/plant/ready-made.ts';
import { keepNew } from '../store/new-case.ts';
import { demoAnswers } from './fernhollow.ts';
import { demoRecord } from './fernhollow-record.ts';

const KEY = 'demo';

/** Keeps the demo case as it was made, whatever was done to it before. It never leaves this browser. */
export async function keepDemo(): Promise<string> {
  const kept = await keepNew({
    key: KEY,
    plant: fernhollow,
    audience: 'householder',
    answers: demoAnswers,
    local: true,
    record: demoRecord,
  });
  return kept.key;
}
