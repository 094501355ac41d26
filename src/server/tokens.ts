import { createHash, randomBytes } from 'node:crypto';

/** 192 bits of randomness in 32 characters that need no escaping in an address. */
export const newToken = (): string => randomBytes(24).toString('base64url');

export const tokenPattern = /^[A-Za-z0-9_-]{32}$/;

/**
 * What is stored of a token. Looking a link up by this hash takes the same time whatever was guessed: how far a guess
 * agrees with a real token says nothing about how far the hashes do.
 */
export const hashToken = (token: string): string =>
  createHash('sha256').update(token).digest('hex');
