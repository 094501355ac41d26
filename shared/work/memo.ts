/** Numbers values by their key, so that equal ones are one and the same number. */
export class Interned<T> {
  readonly values: T[] = [];
  private readonly ids = new Map<string, number>();
  private readonly keyOf: (value: T) => string;

  constructor(keyOf: (value: T) => string) {
    this.keyOf = keyOf;
  }

  idOf(value: T): number {
    const key = this.keyOf(value);
    const known = this.ids.get(key);
    if (known !== undefined) return known;
    this.ids.set(key, this.values.length);
    this.values.push(value);
    return this.values.length - 1;
  }

  at(id: number): T {
    return this.values[id] as T;
  }
}

/** A function of one number, computed once for each. */
export function once<T>(compute: (id: number) => T): (id: number) => T {
  const known = new Map<number, T>();
  return (id) => {
    let value = known.get(id);
    if (value === undefined) {
      value = compute(id);
      known.set(id, value);
    }
    return value;
  };
}
