import { describe, expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import { tried } from './world.ts';

const files = {
  'case.json': JSON.stringify({
    plant: fernhollow,
    answers: [{ question: 'complaint', value: ['weak'] }],
  }),
};

describe('the language of the command line', () => {
  it.each([[['--language', 'es']], [['--language=es']]])(
    'is the one asked for by %s',
    async (option) => {
      const { code, out } = await tried(['diagnose', 'case.json', ...option], { files });
      expect(code).toBe(0);
      expect(out).toContain('Qué puede ser');
    },
  );

  it('leads a whole interview in Spanish through a pipe', async () => {
    const { code, out } = await tried(['ask', 'two-stages', '--language', 'es'], {
      lines: (screen) => (screen.split('\n> ').length > 40 ? null : 'ns'),
    });
    expect(code).toBe(0);
    expect(out).not.toMatch(/Choose|What is wrong/);
  });

  it('that nobody has words for is refused, naming those there are', async () => {
    const { code, err } = await tried(['diagnose', 'case.json', '--language', 'xx'], { files });
    expect(code).toBe(2);
    expect(err).toMatch(/--language: no words in "xx"; those there: en, es/);
  });
});
