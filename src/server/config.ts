import { z } from 'zod';
import { InputError } from '../../shared/common/errors.ts';
import { secretPattern } from './webhook/sign.ts';

const LOOPBACK = ['127.0.0.1', '::1', 'localhost'];

const yesNo = z.enum(['0', '1'], 'is 0 or 1').transform((given) => given === '1');
const count = z.coerce.number('is a number').int().min(1, 'is at least 1').max(1_000_000);
const origin = z
  .url({ protocol: /^https?$/, error: 'is an address such as https://water.example.org' })
  .refine(
    (given) => !URL.canParse(given) || new URL(given).pathname === '/',
    'has no path: only the origin',
  );

const schema = z.object({
  PORT: z.coerce.number('is a number').int().min(0).max(65_535, 'is at most 65535').default(8080),
  HOST: z.string().min(1).default('127.0.0.1'),
  DATA_DIR: z.string().min(1).default('data'),
  DATABASE_URL: z
    .string()
    .regex(/^postgres(ql)?:\/\//, 'begins with postgres://')
    .optional(),
  PUBLIC_URL: origin.optional(),
  TRUST_PROXY: yesNo.default(false),
  LOG_LEVEL: z
    .enum(['debug', 'info', 'warn', 'error', 'silent'], 'is debug, info, warn, error or silent')
    .default('info'),
  CASE_LIMIT: count.default(600),
  SIGN_IN_LIMIT: count.default(10),
  WEBHOOK_URL: z.url({ protocol: /^https?$/, error: 'is an http or https address' }).optional(),
  WEBHOOK_SECRET: z
    .string()
    .regex(
      secretPattern,
      'is "whsec_" and 24 to 64 bytes in base64; make one with: echo whsec_$(openssl rand -base64 32)',
    )
    .optional(),
});

export interface Config {
  readonly port: number;
  readonly host: string;
  readonly dataDir: string;
  readonly databaseUrl: string | undefined;
  readonly publicUrl: string | undefined;
  readonly trustProxy: boolean;
  readonly logLevel: string;
  readonly casesPerTenMinutes: number;
  readonly signInsPerTenMinutes: number;
  readonly webhook: { readonly url: string; readonly secret: string } | undefined;
  /** reachable from elsewhere without TLS in front, as far as we are told */
  readonly openPlainHttp: boolean;
}

/**
 * Reads the configuration from the environment. An empty variable counts as left out. Throws an InputError naming the
 * variable and what it should hold; the values themselves (passwords, secrets) are never repeated.
 */
export function readConfig(environment: Readonly<Record<string, string | undefined>>): Config {
  const given = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''));
  const read = schema.safeParse(given);
  if (!read.success) {
    const issue = read.error.issues[0];
    throw new InputError(
      String(issue?.path[0] ?? 'environment'),
      issue?.message ?? 'cannot be used',
    );
  }
  const env = read.data;
  if ((env.WEBHOOK_URL === undefined) !== (env.WEBHOOK_SECRET === undefined)) {
    const missing = env.WEBHOOK_URL === undefined ? 'WEBHOOK_URL' : 'WEBHOOK_SECRET';
    throw new InputError(missing, 'is missing: WEBHOOK_URL and WEBHOOK_SECRET go together');
  }
  return {
    port: env.PORT,
    host: env.HOST,
    dataDir: env.DATA_DIR,
    databaseUrl: env.DATABASE_URL,
    publicUrl: env.PUBLIC_URL,
    trustProxy: env.TRUST_PROXY,
    logLevel: env.LOG_LEVEL,
    casesPerTenMinutes: env.CASE_LIMIT,
    signInsPerTenMinutes: env.SIGN_IN_LIMIT,
    webhook:
      env.WEBHOOK_URL !== undefined && env.WEBHOOK_SECRET !== undefined
        ? { url: env.WEBHOOK_URL, secret: env.WEBHOOK_SECRET }
        : undefined,
    openPlainHttp: !LOOPBACK.includes(env.HOST) && !env.PUBLIC_URL?.startsWith('https:'),
  };
}
